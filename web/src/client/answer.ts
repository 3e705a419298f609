/** The client's answer: a text to copy or to print. */

export interface AnswerParts {
  /** Of the chosen variant. */
  readonly lines: readonly string[];
  readonly by: string;
  readonly on: string;
  readonly remarks: string;
}

export function answerText({ lines, by, on, remarks }: AnswerParts): string {
  const said = remarks.trim();
  const end = said === "" ? [] : ["", `Remarks: ${said}`];
  return [...lines, "", `Name: ${by.trim()}`.trimEnd(), `Date: ${on.trim()}`.trimEnd(), ...end].join("\n");
}

/** Put a text on the clipboard; whether that was allowed. The text stays marked for copying by hand. */
export async function copyFrom(area: HTMLTextAreaElement): Promise<boolean> {
  area.focus();
  area.select();
  try {
    await navigator.clipboard.writeText(area.value);
    return true;
  } catch {
    // Not every browser lends its clipboard to a page from the disk; its older way takes what is marked.
    return document.execCommand("copy");
  }
}
