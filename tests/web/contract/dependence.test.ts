import { describe, expect, it } from "vitest";
import { dependsOn } from "../../../web/src/contract/dependence";
import table from "../../../web/src/contract/dependencies.json";
import type { Job } from "../../../web/src/contract/types";
import { JOB } from "../page/jobs";

describe("what a result depends on", () => {
  it("is a value for each field that the table names", () => {
    expect(dependsOn(JOB, "fold")).toHaveLength(table.fold.fields.length);
    expect(dependsOn(JOB, "look")).toEqual(["illustrative-matte", "relative", true]);
  });

  it("grows by what bringing in is fitted to while colours are brought in", () => {
    const brought: Job = { ...JOB, colour: { ...JOB.colour, bring_in: 0.5 } };
    const both = [...table.look.fields, ...table.look.while_bringing_in];
    expect(dependsOn(brought, "look")).toHaveLength(both.length);
  });

  it("tells a side without a fill of its own from one with the fill of all", () => {
    const own: Job = {
      ...JOB,
      sides: { ...JOB.sides, left: { fill: JOB.sides.fill } },
    };
    expect(dependsOn(own, "edges")).not.toEqual(dependsOn(JOB, "edges"));
  });
});
