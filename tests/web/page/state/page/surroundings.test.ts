import { beforeAll, describe, expect, it, vi } from "vitest";
import type * as Surroundings from "../../../../../web/src/page/state/page/surroundings";
import { DEFAULT_SURROUNDINGS } from "../../../../../web/src/stage/room/theme";

let state: typeof Surroundings;

beforeAll(async () => {
  vi.stubGlobal("matchMedia", () => ({
    matches: false,
    addEventListener: () => undefined,
  }));
  vi.stubGlobal("localStorage", {
    getItem: () => null,
    setItem: () => undefined,
  });
  state = await import("../../../../../web/src/page/state/page/surroundings");
});

describe("asSurroundings", () => {
  it("gives back what was kept", () => {
    const kept = {
      wall: "slate",
      light_from: "right",
      light_kelvin: 3000,
      beside: "chair",
      flat_light: true,
    } as const;
    expect(state.asSurroundings(JSON.stringify(kept))).toEqual(kept);
  });

  it("takes the plain room where nothing, or nothing of sense, was kept", () => {
    for (const text of [null, "", "not json", "null", "[]", "7"]) {
      expect(state.asSurroundings(text)).toEqual(DEFAULT_SURROUNDINGS);
    }
  });

  it("leaves out what does not hold, and keeps the rest", () => {
    const kept = {
      wall: "purple",
      light_kelvin: 9000,
      beside: "door",
      flat_light: "yes",
    };
    expect(state.asSurroundings(JSON.stringify(kept))).toEqual({
      ...DEFAULT_SURROUNDINGS,
      beside: "door",
    });
  });
});

describe("surround", () => {
  it("changes what it is given and nothing else", () => {
    state.surround({ wall: "sage" });
    state.surround({ light_kelvin: 4000 });
    expect(state.surroundings.value).toEqual({
      ...DEFAULT_SURROUNDINGS,
      wall: "sage",
      light_kelvin: 4000,
    });
  });
});
