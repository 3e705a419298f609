// The intents side by side, worked out when somebody asks.
import type { IntentsReply } from "../../contract/types";
import { Asked } from "./colour_asked";
import { intentsKey } from "./colour_keys";
import { profilesKept } from "./colour_profiles";
import { lane, openBoth } from "./colour_quiet";
import { theCore } from "./core";
import { work } from "./work";

export const askedIntents = new Asked<IntentsReply>("intents", lane);

/** What the comparison of the work in hand depends on. */
export function intentsWanted(): string | undefined {
  const now = work.value;
  return now && intentsKey(now.job, { picture: now.picture, profiles: profilesKept.value });
}

/** Compare the intents on the picture in hand. */
export function compareIntents(): void {
  const now = work.value;
  const key = intentsWanted();
  if (now === undefined || key === undefined) return;
  if (askedIntents.failure.peek() !== undefined) askedIntents.stop();
  askedIntents.want(key, async (signal, onProgress) => {
    await openBoth();
    return (await theCore().call("intents", { job: now.job }, { signal, onProgress })).reply;
  });
}
