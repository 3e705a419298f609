// A text entry whose draft is a candidate: it stays as typed until the core has accepted it.
import { useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import {
  clearFieldErrors,
  draftsDropped,
  entryError,
  fieldErrors,
  fieldId,
  quoted,
  setFieldError,
} from "../state/page/fields";
import { isFixed } from "../state/work/fixed";
import { describedBy, unitId } from "./labelled_field";
import { usePendingValue } from "./pending_value";
import { say } from "../../speech/on_page";

export type Parsed<T> = { ok: true; value: T } | { ok: false; expected: string };

interface EntryProps<T> {
  readonly field: string;
  readonly value: T;
  readonly text: (value: T) => string;
  readonly parse: (text: string) => Parsed<T>;
  /** Offers a value; where the core has to answer, the promise ends when it has. */
  readonly commit: (value: T) => Promise<void> | void;
  /** The arrow keys' step; absent where the value cannot be counted. */
  readonly step?: (value: T, steps: number) => T;
  readonly unit?: string;
  readonly wide?: boolean;
}

export function Entry<T extends number | string>(props: EntryProps<T>) {
  const { field, text, parse, commit, step } = props;
  /** What the arrow keys have come to: the next press counts on, though the core has not answered yet. */
  const pending = usePendingValue<T>();
  const value = pending.value ?? props.value;
  const draft = useSignal<string | undefined>(undefined);
  /** The draft that Enter has offered: the change event that follows must not offer it again. */
  const entered = useRef<string | undefined>(undefined);
  const dropped = draftsDropped.value;
  const written = text(value);
  const begun = useRef(false);
  // Before the page is painted: what is typed after that is a new draft. Its error goes with it.
  useLayoutEffect(() => {
    draft.value = undefined;
    if (begun.current) clearFieldErrors(field);
    begun.current = true;
  }, [draft, field, written, dropped]);
  useLayoutEffect(
    () => () => {
      if (draft.peek() !== undefined) clearFieldErrors(field);
    },
    [draft, field],
  );

  const accept = (): void => {
    const typed = draft.value;
    if (typed === undefined || typed === written) {
      drop();
      return;
    }
    const parsed = parse(typed);
    if (!parsed.ok) {
      const remedy = say("type it again, or press Escape for the former value");
      setFieldError(field, entryError(field, parsed.expected, quoted(typed), remedy));
    } else if (parsed.value === value) drop();
    else void commit(parsed.value);
  };
  const drop = (): void => {
    draft.value = undefined;
    clearFieldErrors(field);
  };
  const fixed = isFixed(field);
  const onKeyDown = (event: KeyboardEvent): void => {
    if (fixed) return;
    if (event.key === "Enter") {
      accept();
      entered.current = draft.value;
    } else if (event.key === "Escape" && (draft.value !== undefined || field in fieldErrors.value)) {
      event.stopPropagation();
      drop();
    } else if (step && (event.key === "ArrowUp" || event.key === "ArrowDown")) {
      event.preventDefault();
      const typed = draft.value === undefined ? undefined : parse(draft.value);
      const from = typed?.ok ? typed.value : value;
      const next = step(from, (event.key === "ArrowUp" ? 1 : -1) * (event.shiftKey ? 10 : 1));
      draft.value = undefined;
      pending.showUntil(next, Promise.resolve(commit(next)));
    }
  };
  return (
    <span class={props.wide ? "entry entry-wide" : "entry"}>
      <input
        id={fieldId(field)}
        type="text"
        inputMode={typeof value === "number" ? "decimal" : "text"}
        autocomplete="off"
        spellcheck={false}
        readOnly={fixed}
        value={draft.value ?? written}
        data-draft={draft.value !== undefined && draft.value !== written}
        onInput={(event) => {
          draft.value = event.currentTarget.value;
          entered.current = undefined;
        }}
        onChange={() => {
          if (draft.value !== entered.current) accept();
        }}
        onKeyDown={onKeyDown}
        {...describedBy(field)}
      />
      {props.unit && (
        <span class="entry-unit" id={unitId(field)}>
          {props.unit}
        </span>
      )}
    </span>
  );
}
