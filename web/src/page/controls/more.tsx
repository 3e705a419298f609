// What is seldom changed, folded away behind its own words.
import type { ComponentChildren } from "preact";

interface MoreProps {
  readonly summary: string;
  readonly children: ComponentChildren;
}

export function More({ summary, children }: MoreProps) {
  return (
    <details class="more">
      <summary>{summary}</summary>
      <div class="more-inside">{children}</div>
    </details>
  );
}
