import { expect, it } from "vitest";
import { type Ask, QueryQueue } from "../../../../../web/src/page/state/core/query_queue";

/** Asks that wait until they are let go, and what has happened to them. */
function questions() {
  const said: string[] = [];
  const ends = new Map<string, () => void>();
  const ask =
    (name: string): Ask =>
    (signal) =>
      new Promise((resolve) => {
        said.push(name);
        signal.addEventListener("abort", () => {
          said.push(`${name} stopped`);
          resolve();
        });
        ends.set(name, resolve);
      });
  return { said, ask, end: (name: string) => ends.get(name)?.() };
}

/** All that is ready to happen has happened. */
const turn = () => new Promise((resolve) => setTimeout(resolve));
const free = () => Promise.resolve();

it("asks one question at a time, in order", async () => {
  const { said, ask, end } = questions();
  const lane = new QueryQueue(free);
  lane.add("look", ask("look"));
  lane.add("clip", ask("clip"));
  await turn();
  expect(said).toEqual(["look"]);
  end("look");
  await turn();
  expect(said).toEqual(["look", "clip"]);
});

it("lets the newest of a kind take the place of the one that waits, and stops the one that runs", async () => {
  const { said, ask } = questions();
  const lane = new QueryQueue(free);
  lane.add("look", ask("first"));
  await turn();
  lane.add("look", ask("second"));
  lane.add("look", ask("third"));
  await turn();
  expect(said).toEqual(["first", "first stopped", "third"]);
});

it("asks nothing before the core is free, but what is urgent", async () => {
  const { said, ask, end } = questions();
  let clear = (): void => {};
  const lane = new QueryQueue((urgent) => (urgent ? free() : new Promise((resolve) => (clear = resolve))));
  lane.add("clip", ask("clip"));
  await turn();
  expect(said).toEqual([]);
  lane.add("look", ask("look"), true);
  clear();
  await turn();
  expect(said).toEqual(["look"]);
  end("look");
  await turn();
  clear();
  await turn();
  expect(said).toEqual(["look", "clip"]);
});

it("gives up what is no longer wanted", async () => {
  const { said, ask } = questions();
  const lane = new QueryQueue(free);
  lane.add("intents", ask("intents"));
  await turn();
  lane.add("clip", ask("clip"));
  lane.stop("clip");
  lane.stop("intents");
  await turn();
  expect(said).toEqual(["intents", "intents stopped"]);
});
