// The user's own sheets, rolls, bars or canvases: one is used or deleted, or the job's is saved under a name.
import { JobControls } from "../controls/job_controls";
import { pressable } from "../controls/pressable";
import { useSignal } from "@preact/signals";
import type { PresetKind } from "../../contract/types";
import { FieldErrorText } from "../controls/labelled_field";
import { OpenFile } from "../controls/open_file";
import { More } from "../controls/section";
import { entryError, fieldId, quoted, setFieldError } from "../state/page/fields";
import {
  deletePreset,
  openPresetsFile,
  ownSizes,
  placeOf,
  PRESETS,
  presets,
  savePreset,
  savePresetsFile,
  takePreset,
} from "../state/presets/presets";
import { parseNumber, trimmed } from "../../units";
import { say } from "../../speech/on_page";

interface Words {
  readonly many: string;
  readonly name: string;
  readonly save: string;
  /** None: it has no price. */
  readonly price?: string;
}

const WORDS: Readonly<Record<PresetKind, Words>> = {
  sheet: {
    many: say("Your own sheets"),
    name: say("Name of the sheet"),
    save: say("Save this sheet"),
    price: say("Price of a square metre of the sheet"),
  },
  roll: {
    many: say("Your own rolls"),
    name: say("Name of the roll"),
    save: say("Save this roll"),
    price: say("Price of a square metre of the roll"),
  },
  bars: {
    many: say("Your own bars"),
    name: say("Name of the bars"),
    save: say("Save these bars"),
    price: say("Price of a metre"),
  },
  canvas: { many: say("Your own canvases"), name: say("Name of the canvas"), save: say("Save this canvas") },
};

export function OwnSizes({ kind }: { readonly kind: PresetKind }) {
  return (
    <More summary={WORDS[kind].many}>
      <div data-own={kind}>
        <Known kind={kind} />
        <SaveOne kind={kind} />
        <FieldErrorText field={placeOf(kind)} />
      </div>
    </More>
  );
}

function Known({ kind }: { readonly kind: PresetKind }) {
  const chosen = useSignal("");
  const sizes = ownSizes(presets.value, kind);
  if (sizes.length === 0) return <p class="consequence">{say("None is saved.")}</p>;
  const name = sizes.find((size) => size.name === chosen.value)?.name ?? sizes[0]?.name ?? "";
  const id = `own-${kind}`;
  return (
    <div class="field">
      <label class="visually-hidden" for={id}>
        {WORDS[kind].many}
      </label>
      <select id={id} dir="auto" value={name} onChange={(event) => (chosen.value = event.currentTarget.value)}>
        {sizes.map((size) => (
          <option key={size.name}>{size.name}</option>
        ))}
      </select>
      <div class="row">
        <JobControls>
          <button
            type="button"
            class="button"
            aria-label={say("Use it: {name}", { name })}
            onClick={() => void takePreset(kind, name)}
          >
            {say("Use it")}
          </button>
        </JobControls>
        <button
          type="button"
          class="button"
          aria-label={say("Delete it: {name}", { name })}
          onClick={() => void deletePreset(kind, name)}
        >
          {say("Delete it")}
        </button>
      </div>
    </div>
  );
}

function SaveOne({ kind }: { readonly kind: PresetKind }) {
  const name = useSignal("");
  const price = useSignal("");
  const words = WORDS[kind];
  const known = ownSizes(presets.value, kind).some((size) => size.name === name.value.trim());
  const save = (): void => {
    const number = price.value.trim() === "" ? undefined : parseNumber(price.value);
    if (price.value.trim() !== "" && number === undefined) {
      const field = placeOf(kind);
      const wrong = entryError(field, say("a number, for example 14.50"), quoted(price.value), say("type it again"));
      setFieldError(field, {
        ...wrong,
        message: say("The price must be a number; you gave “{price}”.", { price: price.value }),
      });
      return;
    }
    void savePreset(kind, name.value.trim(), number);
  };
  const rename = (text: string): void => {
    name.value = text;
    const found = ownSizes(presets.value, kind).find((size) => size.name === text.trim());
    if (found?.price !== undefined) price.value = trimmed(found.price, 4);
  };
  return (
    <>
      <div class="pair">
        <TextEntry id={`own-${kind}-name`} label={words.name} value={name.value} set={rename} />
        {words.price && (
          <TextEntry
            id={`own-${kind}-price`}
            label={words.price}
            value={price.value}
            set={(text) => (price.value = text)}
          />
        )}
      </div>
      <div class="row">
        <button type="button" class="button" id={`own-${kind}-save`} {...pressable(name.value.trim() !== "", save)}>
          {words.save}
        </button>
      </div>
      {kind === "canvas" && <p class="consequence">{say("The name of the job's profile is saved with it.")}</p>}
      {known && <p class="consequence">{say("One of this name is saved; this one takes its place.")}</p>}
    </>
  );
}

interface TextEntryProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly set: (text: string) => void;
}

function TextEntry({ id, label, value, set }: TextEntryProps) {
  return (
    <div class="field">
      <label class="field-label" for={id}>
        {label}
      </label>
      <div class="field-entry">
        <span class="entry entry-wide">
          <input
            id={id}
            type="text"
            dir="auto"
            autocomplete="off"
            maxLength={100}
            value={value}
            onInput={(event) => set(event.currentTarget.value)}
          />
        </span>
      </div>
    </div>
  );
}

/** All of them as one file, saved and opened. */
export function OwnSizesFile() {
  const count = Object.values(presets.value).reduce<number>(
    (sum, list) => sum + (Array.isArray(list) ? list.length : 0),
    0,
  );
  return (
    <More summary={say("All your own sizes in one file")}>
      <div class="row" id={fieldId(PRESETS)}>
        <button type="button" class="button" id="save-own-sizes" {...pressable(count > 0, savePresetsFile)}>
          {say("Save your own sizes")}
        </button>
        <OpenFile
          id="open-own-sizes"
          label={say("Open a file of sizes")}
          accept="application/json,.json"
          open={(file) => void openPresetsFile(file)}
        />
      </div>
      <p class="consequence">
        {say(
          "The file holds your sheets, rolls, bars and canvases with their prices. A file that you open adds its own to them.",
        )}
      </p>
      <FieldErrorText field={PRESETS} />
    </More>
  );
}
