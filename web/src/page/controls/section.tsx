// A section with a numbered heading, and a part of it that is closed at first.
import type { ComponentChildren } from "preact";

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
      <p class="section-skips">
        <a href="#section-list" aria-label={`List of sections, from ${title}`}>
          List of sections
        </a>
        {next && (
          <a href={`#${next.id}`} aria-label={`To ${next.title}, past ${title}`}>
            To {next.title}
          </a>
        )}
      </p>
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
