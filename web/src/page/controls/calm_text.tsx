// What is said once nothing has changed for a moment: a drag, or keys that are held down, say one thing.
import { useEffect, useState } from "preact/hooks";

const CALM_MS = 700;

interface CalmTextProps {
  readonly id?: string;
  readonly words: string;
  /**
   * The controls that lead to it, where only who has the focus on one of them hears it. Others say what they do
   * themselves.
   */
  readonly of?: string;
}

export function CalmText({ id, words, of }: CalmTextProps) {
  const [said, setSaid] = useState("");
  useEffect(() => {
    const timer = setTimeout(() => {
      // What was said before of something else holds no longer.
      setSaid(of === undefined || document.activeElement?.matches(of) === true ? words : "");
    }, CALM_MS);
    return () => clearTimeout(timer);
  }, [words, of]);
  return (
    <p class="visually-hidden" id={id} role="status">
      {said}
    </p>
  );
}
