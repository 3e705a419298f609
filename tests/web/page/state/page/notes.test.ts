import { expect, it } from "vitest";
import type { Note } from "../../../../../web/src/contract/types";
import { worstFirst } from "../../../../../web/src/page/state/page/notes";

const note = (code: string, severity: Note["severity"], place: Note["place"] = "face"): Note => ({
  code,
  severity,
  place,
  message: code,
  remedy: "",
  values: {},
  field: "",
});

it("lists stops, then what to watch, then hints, each in the order given", () => {
  const sorted = worstFirst([note("a", "hint"), note("b", "stop"), note("c", "watch"), note("d", "stop")]);
  expect(sorted.map((one) => one.code)).toEqual(["b", "d", "c", "a"]);
});

it("says nothing twice, but the same of two places", () => {
  const sorted = worstFirst([note("a", "hint"), note("a", "hint"), note("a", "hint", "back")]);
  expect(sorted.length).toBe(2);
});
