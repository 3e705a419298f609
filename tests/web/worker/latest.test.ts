import { expect, test } from "vitest";
import { latest, type Outcome } from "../../../web/src/worker/latest";

/** A call that ends when the test says so. */
function heldCalls(): { run: (name: string) => Promise<string>; begun: string[]; end: (name: string) => void } {
  const begun: string[] = [];
  const ends = new Map<string, () => void>();
  return {
    begun,
    run: (name) => {
      begun.push(name);
      return new Promise((resolve) => ends.set(name, () => resolve(`reply to ${name}`)));
    },
    end: (name) => ends.get(name)?.(),
  };
}

test("one call runs, the newest waits, and those between are dropped", async () => {
  const calls = heldCalls();
  const show = latest(calls.run);
  const [a, b, c] = [show("a"), show("b"), show("c")];

  expect(await b).toEqual<Outcome<string>>({ kind: "dropped" });
  expect(calls.begun).toEqual(["a"]);

  calls.end("a");
  expect(await a).toEqual<Outcome<string>>({ kind: "answered", value: "reply to a" });
  await Promise.resolve();
  expect(calls.begun).toEqual(["a", "c"]);

  calls.end("c");
  expect(await c).toEqual<Outcome<string>>({ kind: "answered", value: "reply to c" });
});

test("a call that fails rejects its own promise only, and the next one runs", async () => {
  const outcomes = [Promise.reject(new Error("first")), Promise.resolve("second")];
  const show = latest(() => outcomes.shift() ?? Promise.resolve("none"));
  const [first, second] = [show(), show()];

  await expect(first).rejects.toThrow("first");
  expect(await second).toEqual({ kind: "answered", value: "second" });
});

test("when nothing runs, a call starts at once", () => {
  const calls = heldCalls();
  void latest(calls.run)("a");
  expect(calls.begun).toEqual(["a"]);
});
