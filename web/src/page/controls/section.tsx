// A section with a numbered heading, and a part of it that is closed at first.
import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";
import { say } from "../../speech/on_page";

interface SectionProps {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  /** The section after this one, which a link leads to. */
  readonly next?: { readonly id: string; readonly title: string } | undefined;
  readonly children: ComponentChildren;
}

export function Section({ id, number, title, next, children }: SectionProps) {
  return (
    <section class="section" id={id} aria-labelledby={`${id}-title`} tabIndex={-1}>
      {next && (
        <p class="section-skips">
          <a href={`#${next.id}`} aria-label={say("To {title}, past {title2}", { title: next.title, title2: title })}>
            {say("To {title}", { title: next.title })}
          </a>
        </p>
      )}
      <h2 class="section-title" id={`${id}-title`}>
        <span class="section-number" aria-hidden="true">
          {number}
        </span>
        {title}
      </h2>
      {children}
      <p class="section-skips">
        <a href="#section-list" aria-label={say("List of sections, from the end of {title}", { title })}>
          {say("List of sections")}
        </a>
      </p>
    </section>
  );
}

interface PastProps {
  /** What the link leads past. */
  readonly summary: string;
  /** The id of the element after it. */
  readonly end: string;
}

/** The link past a part of a section that has many stops of Tab. */
export function Past({ summary, end }: PastProps) {
  return (
    <p class="section-skips">
      <a href={`#${end}`} aria-label={say("Past {summary}", { summary })}>
        {say("Past this part")}
      </a>
    </p>
  );
}

interface MoreProps {
  readonly summary: string;
  readonly children: ComponentChildren;
}

export function More({ summary, children }: MoreProps) {
  const end = useId();
  return (
    <details class="more">
      <summary>{summary}</summary>
      <Past summary={summary} end={end} />
      <div class="more-inside">{children}</div>
      <span id={end} tabIndex={-1} />
    </details>
  );
}
