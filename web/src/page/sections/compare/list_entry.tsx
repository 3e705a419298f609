// A list of one's own to compare, typed with commas between its values; it begins as the usual list.
import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { refused } from "../../state/compare/comparison";
import type { ParsedList } from "../../state/compare/plan";
import { entryError, quoted } from "../../state/page/fields";
import { unit } from "../../state/page/settings";
import { say } from "../../../speech/on_page";

interface ListEntryProps<T> {
  /** Ends the elements' ids. */
  readonly id: string;
  /** The job's field that the values are of. */
  readonly field: string;
  readonly label: string;
  readonly usual: readonly T[];
  /** The usual list as it is written. */
  readonly usualText: string;
  readonly parse: (text: string) => ParsedList<T>;
  /** What an entry should have been. */
  readonly expected: string;
  /** On the button. */
  readonly startWord: string;
  readonly start: (values: readonly T[]) => void;
  /** Said below the entry, and of it. */
  readonly says?: ComponentChildren;
  readonly children: ComponentChildren;
}

export function ListEntry<T>(props: ListEntryProps<T>) {
  const { id, field, label, usual, usualText, parse, expected, startWord, start, says, children } = props;
  const draft = useSignal<string | undefined>(undefined);
  const begin = (): void => {
    const typed = draft.value;
    const parsed: ParsedList<T> =
      typed === undefined || typed.trim() === usualText ? { ok: true, values: usual } : parse(typed);
    if (parsed.ok) start(parsed.values);
    else refused.value = entryError(field, expected, quoted(parsed.got), say("type the list again"));
  };
  const [unitId, saysId] = [`compare-${id}-unit`, `compare-${id}-says`];
  return (
    <div class="field compare-kind">
      <label class="field-label" for={`compare-${id}`}>
        {label}
      </label>
      <div class="row">
        <span class="entry entry-list">
          <input
            id={`compare-${id}`}
            type="text"
            autocomplete="off"
            spellcheck={false}
            aria-describedby={says === undefined ? unitId : `${unitId} ${saysId}`}
            value={draft.value ?? usualText}
            onInput={(event) => (draft.value = event.currentTarget.value)}
            onKeyDown={(event) => {
              if (event.key === "Enter") begin();
            }}
          />
          <span class="entry-unit" id={unitId}>
            {unit.value === "mm" ? "mm" : "in"}
          </span>
        </span>
        <button type="button" class="button" id={`start-${id}`} onClick={begin}>
          {startWord}
        </button>
      </div>
      {says !== undefined && (
        <p class="consequence" id={saysId}>
          {says}
        </p>
      )}
      {children}
    </div>
  );
}
