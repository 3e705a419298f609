/** The viewer of the client's page. It asks nothing of any network; without WebGL the page's drawings stay. */

import { StageUnavailable } from "../stage/types";
import { answering } from "./answer";
import { choices, element } from "./elements";
import { hang } from "./hang";
import { readOffer } from "./offer";
import { hangOnWall } from "./own_wall";
import { checkPixels, panesOf, PixelsWithheld } from "./panes";
import { mark, say, speak } from "../speech/say";

const NO_3D = mark("This browser shows no 3D view here; the drawings below show the same canvas.");

async function start(): Promise<void> {
  const offer = readOffer(element("offer", HTMLScriptElement).text);
  if (offer.language !== undefined) speak(offer.language, offer.words ?? {});
  const answer = answering(offer);
  const listeners = [answer.choose];
  const now = choices((number) => {
    for (const one of listeners) one(number);
  });
  for (const one of listeners) one(now());
  try {
    checkPixels();
    const panes = await panesOf(offer);
    // On a wall of one's own the piece is seen also where the room is not drawn.
    const onWall = hangOnWall(offer, panes, answer.place);
    listeners.push(onWall);
    onWall(now());
    const follow = hang(offer, panes);
    listeners.push(follow);
    follow(now());
    document.documentElement.dataset["state"] = "hung";
  } catch (failure) {
    if (!(failure instanceof StageUnavailable || failure instanceof PixelsWithheld)) throw failure;
    element("why", HTMLElement).textContent = say(NO_3D);
    document.documentElement.dataset["state"] = "drawn";
  }
}

void start();
