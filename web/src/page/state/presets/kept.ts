// The user's own sizes in the browser's database, as text, beside the work but apart from it.
import { createStore, get, set } from "idb-keyval";
import { ANSWER_MS, within } from "../keeping/database";
import { announce } from "../page/status";
import { say } from "../../../speech/on_page";

const KEY = "presets";
const store = createStore("keyval-store", "keyval");

/** The text that was kept; nothing where there is none, or where the browser forbids storage or does not answer. */
export async function keptPresetsText(): Promise<string | undefined> {
  try {
    const found = await within(get<unknown>(KEY, store), ANSWER_MS);
    return typeof found === "string" ? found : undefined;
  } catch (refused) {
    console.warn(refused);
    return undefined;
  }
}

export async function keepPresetsText(text: string): Promise<void> {
  try {
    if ((await within(set(KEY, text, store).then(KEPT), ANSWER_MS)) === true) return;
  } catch (refused) {
    console.warn(refused);
  }
  announce(
    say("This browser does not keep your own sizes (its storage is full or switched off). Save them to a file."),
  );
}

const KEPT = (): true => true;
