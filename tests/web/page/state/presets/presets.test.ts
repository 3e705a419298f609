import { beforeEach, expect, it, vi } from "vitest";
import german from "../../../../../pycore/speech/data/de.json";
import type { Job, Presets } from "../../../../../web/src/contract/types";
import { type Edit, setText } from "../../../../../web/src/page/state/work/edit";
import { CoreError } from "../../../../../web/src/worker/errors";
import { JOB } from "../../jobs";

const NONE: Presets = {
  version: 1,
  sheets: [],
  rolls: [],
  bars: [],
  canvases: [],
};
const MATTE = {
  name: "Matte",
  width_mm: 420,
  height_mm: 594,
  margin_mm: [3, 3, 3, 3],
  price_per_m2: 24,
} as const;
const WIDE = { name: "Wide", width_mm: 1118, margin_mm: [3, 3, 3, 3] } as const;
const OWN = {
  ...NONE,
  sheets: [{ ...MATTE }],
  rolls: [{ ...WIDE }],
} as unknown as Presets;

const asked = (text = ""): unknown => JSON.parse(text);
const REFUSED = (message: string) => ({
  code: "field",
  field: "x",
  expected: "",
  got: "",
  remedy: "r",
  values: {},
  message,
});

/** What the database of the browser holds, and what was asked of core and page. */
const stub = vi.hoisted(() => ({
  text: undefined as string | undefined,
  calls: [] as string[],
  refusal: undefined as string | undefined,
  prices: [] as (number | undefined)[],
  proposed: undefined as Job | undefined,
}));

vi.mock("../../../../../web/src/page/state/core/connection", () => ({
  onForgotten: () => {},
  getCore: () => ({
    call: (method: string, params: { text?: string; presets: Presets; name?: string }) => {
      stub.calls.push(method);
      if (stub.refusal !== undefined) return Promise.reject(new CoreError(REFUSED(stub.refusal)));
      if (method === "take_preset") return Promise.resolve({ reply: { job: setText({ client: "taken" })(JOB) } });
      if (method === "keep_preset") {
        const rolls = [...params.presets.rolls, { ...WIDE, name: params.name }];
        return Promise.resolve({
          reply: { presets: { ...params.presets, rolls } },
        });
      }
      return Promise.resolve({
        reply: { presets: asked(params.text), added: 2, replaced: 1 },
      });
    },
  }),
}));
vi.mock("../../../../../web/src/page/state/work/run", () => ({
  settledWork: () => Promise.resolve({ job: JOB }),
  propose: ({ change }: Edit) => {
    // Typed while the core was asked.
    stub.proposed = change(setText({ name: "typed" })(JOB));
    return Promise.resolve();
  },
}));
vi.mock("../../../../../web/src/page/state/work/files", () => ({
  download: () => {},
}));
vi.mock("../../../../../web/src/page/state/plan/options", () => ({
  choose: ({ price }: { price?: number }) => stub.prices.push(price),
}));
vi.mock("../../../../../web/src/page/state/presets/kept", () => ({
  keptPresetsText: () => Promise.resolve(stub.text),
  keepPresetsText: (text: string) => {
    stub.text = text;
    return Promise.resolve();
  },
}));

const state = await import("../../../../../web/src/page/state/presets/presets");
const { speak } = await import("../../../../../web/src/speech/say");
const { fieldErrors } = await import("../../../../../web/src/page/state/page/fields");

/** What the browser keeps. */
function kept(): unknown {
  return JSON.parse(stub.text ?? "null");
}

beforeEach(async () => {
  stub.refusal = undefined;
  stub.text = JSON.stringify(OWN);
  await state.restorePresets();
  stub.calls.length = 0;
  stub.prices.length = 0;
});

it("shows names and prices of each kind", () => {
  expect(state.ownSizes(OWN, "sheet")).toEqual([{ name: "Matte", price: 24 }]);
  expect(state.ownSizes(OWN, "roll")).toEqual([{ name: "Wide", price: undefined }]);
  expect(state.ownSizes(OWN, "bars")).toEqual([]);
});

it("says what a file brought", () => {
  expect(state.joinedSentence("shop.json", 2, 0)).toBe("shop.json was opened: 2 entries are new.");
  expect(state.joinedSentence("shop.json", 0, 1)).toBe(
    "shop.json was opened: no entry is new; 1 entry of the same name took the file's values.",
  );
  speak("de", german);
  expect(state.joinedSentence("shop.json", 2, 0)).toBe("shop.json ist geöffnet: 2 Einträge sind neu.");
  speak("en", {});
});

it("saves and deletes on top of what another tab has written", async () => {
  stub.text = JSON.stringify({ ...OWN, sheets: [] });
  await state.savePreset("roll", "Narrow", undefined);
  expect(state.ownSizes(state.presets.value, "roll").map(({ name }) => name)).toEqual(["Wide", "Narrow"]);
  expect(state.presets.value.sheets).toEqual([]);
  expect(kept()).toEqual(state.presets.value);
  await state.deletePreset("roll", "Wide");
  expect(kept()).toEqual({
    ...OWN,
    sheets: [],
    rolls: [{ ...WIDE, name: "Narrow" }],
  });
  // Its own text is not read again.
  expect(stub.calls).toEqual(["open_presets", "keep_preset"]);
});

it("takes the price of a sheet into the cutting plan", async () => {
  await state.takePreset("sheet", "Matte");
  await state.takePreset("roll", "Wide");
  expect(stub.prices).toEqual([24]);
  expect(stub.proposed).toMatchObject({ client: "taken", name: "typed" });
});

it("keeps everything where the core refuses, and says why beside the kind", async () => {
  const before = stub.text;
  stub.refusal = "no such name";
  await state.savePreset("sheet", "Matte", -1);
  expect(fieldErrors.value["presets.sheet"]?.message).toBe("no such name");
  expect(stub.text).toBe(before);
  expect(state.presets.value).toEqual(OWN);
});

it("opens no file that is far too large", async () => {
  await state.openPresetsFile(new File([new Uint8Array(4_000_001)], "photograph.json"));
  expect(fieldErrors.value["presets"]?.message).toBe("The file photograph.json has 4 MB, which is no file of sizes.");
  expect(stub.calls).toEqual([]);
});
