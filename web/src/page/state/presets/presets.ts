// The user's own sheets, rolls, bars and canvases: used, saved under a name, deleted, and opened from a file.
import { signal } from "@preact/signals";
import type { Presets, PresetKind } from "../../../contract/types";
import { getCore } from "../core/connection";
import { clearFieldErrors, failureText, fileFailure, setFieldError } from "../page/fields";
import { announce } from "../page/status";
import { textOf } from "../page/read_file";
import { choose } from "../plan/options";
import { download } from "../work/files";
import { changesTo } from "../work/edit";
import { propose, settledWork } from "../work/run";
import { keepPresetsText, keptPresetsText } from "./kept";
import { say } from "../../../speech/on_page";

/** An entry of any kind; a price is of a square metre, of bars of a metre. */
export interface OwnSize {
  readonly name: string;
  readonly price: number | undefined;
}

const NONE: Presets = { version: 1, sheets: [], rolls: [], bars: [], canvases: [] };

/** All entries, as they were last saved, opened or found in the browser's storage. */
export const presets = signal<Presets>(NONE);

/** The place of an error about the file, or about what the browser keeps. */
export const PRESETS = "presets";

/** The place of an error about one kind. */
export const placeOf = (kind: PresetKind): string => `${PRESETS}.${kind}`;

const LIST_OF = { sheet: "sheets", roll: "rolls", bars: "bars", canvas: "canvases" } as const;

/** More than the core takes: it counts the characters. */
const LARGEST_BYTES = 4_000_000;

/** The text that the browser keeps for `presets`. */
let keptText: string | undefined;

export function ownSizes(all: Presets, kind: PresetKind): readonly OwnSize[] {
  if (kind === "bars") return all.bars.map(({ name, price_per_m }) => ({ name, price: price_per_m }));
  if (kind === "canvas") return all.canvases.map(({ name }) => ({ name, price: undefined }));
  const list = kind === "sheet" ? all.sheets : all.rolls;
  return list.map(({ name, price_per_m2 }) => ({ name, price: price_per_m2 }));
}

/** All entries but one. */
export function without(all: Presets, kind: PresetKind, name: string): Presets {
  const list = LIST_OF[kind];
  return { ...all, [list]: all[list].filter((entry) => entry.name !== name) };
}

/** What opening a file has changed, in a sentence. */
export function joinedSentence(file: string, added: number, replaced: number): string {
  const entries = (count: number): string => (count === 1 ? say("1 entry") : say("{count} entries", { count }));
  const also =
    replaced === 0 ? "" : say("; {entries} of the same name took the file's values", { entries: entries(replaced) });
  return say("{file} was opened: {words} new{also}.", {
    file,
    words:
      added === 0 ? say("no entry is") : added === 1 ? say("1 entry is") : say("{count} entries are", { count: added }),
    also,
  });
}

/** The entries that the browser keeps. Another tab may have changed them since they were read. */
async function latest(): Promise<Presets> {
  const text = await keptPresetsText();
  if (text !== undefined && text !== keptText) {
    const { reply } = await getCore().call("open_presets", { text, presets: NONE });
    keptText = text;
    presets.value = reply.presets;
  }
  return presets.value;
}

async function keep(next: Presets): Promise<void> {
  presets.value = next;
  keptText = JSON.stringify(next);
  await keepPresetsText(keptText);
}

/** Run an action; what goes wrong is said at a place. */
async function act(place: string, action: () => Promise<void>, kept?: string): Promise<void> {
  clearFieldErrors(place);
  try {
    await action();
  } catch (failure) {
    setFieldError(place, kept === undefined ? failureText(failure) : fileFailure(failure, kept));
  }
}

/** Show the entries of the last visit. */
export function restorePresets(): Promise<void> {
  return act(PRESETS, async () => {
    await latest();
  });
}

/** Put an entry into the job, and the price of a sheet or roll into the cutting plan. */
export function takePreset(kind: PresetKind, name: string): Promise<void> {
  return act(placeOf(kind), async () => {
    const now = await settledWork();
    if (now === undefined) return;
    const { reply } = await getCore().call("take_preset", { job: now.job, presets: presets.value, kind, name });
    await propose({
      field: placeOf(kind),
      label: say("using {name}", { name }),
      change: changesTo(now.job, reply.job),
    });
    const price = ownSizes(presets.value, kind).find((entry) => entry.name === name)?.price;
    if ((kind === "sheet" || kind === "roll") && price !== undefined) choose({ price });
  });
}

/** Save what the job has under a name; an entry of that name is replaced. */
export function savePreset(kind: PresetKind, name: string, price: number | undefined): Promise<void> {
  return act(placeOf(kind), async () => {
    const now = await settledWork();
    if (now === undefined) return;
    const priced = price === undefined ? {} : { price };
    const params = { job: now.job, presets: await latest(), kind, name, ...priced };
    await keep((await getCore().call("keep_preset", params)).reply.presets);
    announce(say("“{name}” was saved.", { name }));
  });
}

export function deletePreset(kind: PresetKind, name: string): Promise<void> {
  return act(placeOf(kind), async () => {
    await keep(without(await latest(), kind, name));
    announce(say("“{name}” was deleted.", { name }));
  });
}

/** Save all entries as one file. */
export function savePresetsFile(): void {
  const text = `${JSON.stringify(presets.value, null, 2)}\n`;
  download(new Blob([text], { type: "application/json" }), "tuckfold-sizes.json");
}

/** Put the entries of a file among the others. */
export function openPresetsFile(file: File): Promise<void> {
  const kept = say("Your own sizes are as they were.");
  const open = async (): Promise<void> => {
    if (file.size > LARGEST_BYTES) {
      const message = say("The file {file} has {size} MB, which is no file of sizes.", {
        file: file.name,
        size: Math.round(file.size / 1e6),
      });
      setFieldError(PRESETS, { field: PRESETS, message, remedy: say("open a file that was saved here"), kept });
      return;
    }
    const params = { text: await textOf(file), presets: await latest() };
    const { reply } = await getCore().call("open_presets", params);
    await keep(reply.presets);
    announce(joinedSentence(file.name, reply.added, reply.replaced));
  };
  return act(PRESETS, open, kept);
}
