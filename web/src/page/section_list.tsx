// The links to the sections, which stay in sight on wide screens.
import { useEffect, useRef } from "preact/hooks";
import { SECTIONS } from "./section_table";
import { say } from "../speech/on_page";

export function SectionList() {
  const list = useRef<HTMLElement>(null);
  // What is scrolled to, or has the focus, must not lie behind the list: its lines differ with width and language.
  useEffect(() => {
    const element = list.current;
    if (element === null) return;
    const watch = new ResizeObserver(() =>
      document.documentElement.style.setProperty("--section-list-high", `${element.offsetHeight}px`),
    );
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return (
    <nav class="section-list" id="section-list" aria-label={say("Sections")} tabIndex={-1} ref={list}>
      {SECTIONS.map(({ id, title, label = title }) => (
        <a key={id} href={`#${id}`}>
          {label}
        </a>
      ))}
    </nav>
  );
}
