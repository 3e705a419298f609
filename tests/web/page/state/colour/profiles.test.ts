import { describe, expect, it, vi } from "vitest";

vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  onForgotten: () => {},
  getCore: () => undefined,
  onRestart: () => {},
}));

const { ILLUSTRATIVE, keepProfile, nameFor } = await import("../../../../../web/src/page/state/colour/profiles");

const blob = (text: string): Blob => new Blob([text]);

describe("the name of a profile", () => {
  it("is its file's, where that is free or the same file has it", async () => {
    expect(await nameFor("gloss.icc", blob("gloss"))).toBe("gloss.icc");
    keepProfile({ name: "gloss.icc", blob: blob("gloss") });
    expect(await nameFor("gloss.icc", blob("gloss"))).toBe("gloss.icc");
  });

  it("gets a number before its ending where another file has it", async () => {
    keepProfile({ name: "matte.v2.icc", blob: blob("first") });
    expect(await nameFor("matte.v2.icc", blob("other"))).toBe("matte.v2 (2).icc");
    keepProfile({ name: "matte.v2 (2).icc", blob: blob("other") });
    expect(await nameFor("matte.v2.icc", blob("other"))).toBe("matte.v2 (2).icc");
    expect(await nameFor("matte.v2.icc", blob("third"))).toBe("matte.v2 (3).icc");
    keepProfile({ name: "matte", blob: blob("first") });
    expect(await nameFor("matte", blob("other"))).toBe("matte (2)");
  });

  it("is never that of the invented canvas", async () => {
    expect(await nameFor(ILLUSTRATIVE, blob("matte"))).toBe(`${ILLUSTRATIVE} (2)`);
  });
});
