import { describe, expect, it, vi } from "vitest";

vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  onForgotten: () => {},
  getCore: () => undefined,
  onRestart: () => {},
}));

const { freeName, ILLUSTRATIVE } = await import("../../../../../web/src/page/state/colour/profiles");

const among =
  (...names: string[]) =>
  (name: string) =>
    names.includes(name);

describe("the name of a profile", () => {
  it("is its file's, where that is free", () => {
    expect(freeName("matte.icc", among("gloss.icc"))).toBe("matte.icc");
  });

  it("gets a number before its ending where another file has it", () => {
    expect(freeName("matte.icc", among("matte.icc"))).toBe("matte (2).icc");
    expect(freeName("matte.v2.icc", among("matte.v2.icc", "matte.v2 (2).icc"))).toBe("matte.v2 (3).icc");
    expect(freeName("matte", among("matte"))).toBe("matte (2)");
  });

  it("is never that of the invented canvas", () => {
    expect(freeName(ILLUSTRATIVE, among())).toBe(`${ILLUSTRATIVE} (2)`);
  });
});
