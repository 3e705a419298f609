// A section with a numbered heading, and a part of it that is closed at first.
import type { ComponentChildren } from "preact";

interface SectionProps {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  readonly children: ComponentChildren;
}

export function Section({ id, number, title, children }: SectionProps) {
  return (
    <section class="section" id={id} aria-labelledby={`${id}-title`}>
      <h2 class="section-title" id={`${id}-title`}>
        <span class="section-number" aria-hidden="true">
          {number}
        </span>
        {title}
      </h2>
      {children}
    </section>
  );
}

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
