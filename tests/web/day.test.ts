import { expect, it } from "vitest";
import { dayOf } from "../../web/src/day";

it("writes a day with two digits each", () => {
  // derived: months count from 0, so that 4 is May.
  expect(dayOf(new Date(2031, 4, 2))).toBe("2031-05-02");
});
