// The user's own sizes in the browser's database, as text, beside the work but apart from it.
import { createStore, get, set } from "idb-keyval";
import { announce } from "../page/status";
import { say } from "../../../speech/on_page";

const KEY = "presets";
const store = createStore("keyval-store", "keyval");

/** The text that was kept; nothing where there is none, or where the browser forbids storage. */
export async function keptPresetsText(): Promise<string | undefined> {
  try {
    const found = await get<unknown>(KEY, store);
    return typeof found === "string" ? found : undefined;
  } catch (failure) {
    console.error(failure);
    return undefined;
  }
}

export async function keepPresetsText(text: string): Promise<void> {
  try {
    await set(KEY, text, store);
  } catch (failure) {
    console.error(failure);
    announce(
      say("This browser does not keep your own sizes (its storage is full or switched off). Save them to a file."),
    );
  }
}
