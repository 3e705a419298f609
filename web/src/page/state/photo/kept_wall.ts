// The wall is kept in the browser's database beside the work, and taken up again at the next visit.
import { effect } from "@preact/signals";
import { createStore, del, get, set } from "idb-keyval";
import { restoreWall } from "./open_wall";
import { asWall } from "./stored_wall";
import { type WallWork, wallWork } from "./wall_work";

const KEY = "wall";
const WAIT_MS = 400;
const store = createStore("keyval-store", "keyval");

/** Take up the wall of the last visit, and keep it from then on whenever it changes. */
export async function keepWall(): Promise<void> {
  try {
    const former = asWall(await get<unknown>(KEY, store));
    if (former !== undefined && wallWork.peek() === undefined) await restoreWall(former);
  } catch (failure) {
    // A browser that keeps nothing says so when the work itself is kept.
    console.warn(failure);
  }
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let kept: WallWork | undefined = wallWork.peek();
  let writing = Promise.resolve();
  effect(() => {
    const now = wallWork.value;
    clearTimeout(waiting);
    if (now === kept) return;
    waiting = setTimeout(() => {
      kept = now;
      writing = writing
        .then(() => (now === undefined ? del(KEY, store) : set(KEY, now, store)))
        .catch((failure: unknown) => console.warn(failure));
    }, WAIT_MS);
  });
}
