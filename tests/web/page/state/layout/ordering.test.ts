import { expect, it } from "vitest";
import { hangingRows, massShown, orderRows, weightRows } from "../../../../../web/src/page/state/layout/ordering";
import { BARS } from "../../jobs";

const texts = (rows: ReturnType<typeof orderRows>) => Object.fromEntries(rows.map(({ name, text }) => [name, text]));

it("rounds a range of masses outwards", () => {
  // Derived: down and up to the next 1 g, 10 g or 0.1 kg; the command line rounds alike.
  expect(massShown([9.6, 19.2])).toBe("9 to 20 g");
  expect(massShown([276.4, 606.2])).toBe("270 to 610 g");
  expect(massShown([890, 1230])).toBe("0.8 to 1.3 kg");
  expect(massShown([43.4, 43.4])).toBe("43 g");
  expect(massShown([2616.2, 2616.2])).toBe("2.6 kg");
});

it("lists bars, braces and staples in the page's unit", () => {
  expect(texts(orderRows(BARS, "mm"))).toEqual({
    bars: "2 × 297 mm,\n2 × 210 mm",
    braces: "none",
    staples: "22",
  });
  const braced = { ...BARS, braces: [{ length_mm: 254, count: 3 }] };
  // Derived: 254 / 25.4 = 10.
  expect(texts(orderRows(braced, "inch"))["braces"]).toBe("3 × 10 in");
  const said = (braces_cross: boolean) => orderRows({ ...braced, braces_cross }, "mm")[1]?.remark;
  expect(said(true)).toContain("where two cross, halve both");
  expect(said(false)).not.toContain("cross, halve");
  const staples = orderRows({ ...BARS, staples: 0 }, "mm").find(({ name }) => name === "staples");
  expect(staples?.text).toBe("none");
  expect(staples?.remark).toMatch(/^The turn-over has no room/u);
});

it("says canvas alone and whole piece, and where each figure comes from", () => {
  const rows = weightRows(BARS, "mm");
  expect(rows.map(({ head }) => head)).toEqual(["Whole piece", "Canvas alone", "Rings and wire"]);
  expect(rows[2]?.remark).toBe("from memory: with their screws");
  expect(weightRows({ ...BARS, panels: 3, whole_g: [804.6, 1796.7] }, "mm")[0]).toMatchObject({
    text: "0.8 to 1.8 kg",
    remark: "all 3 panels; one weighs 260 to 600 g",
  });
});

it("says a bar's section in the page's unit", () => {
  const reason = "pine of 350 to 560 kg/m3; 85% to all of a 40 x 20 mm section";
  const bars = { part: "bars", low_g: 90, high_g: 180, origin: "from memory", reason } as const;
  // Derived: 40 and 20 mm are 1.57 and 0.79 in.
  expect(weightRows({ ...BARS, masses: [bars] }, "inch")[1]?.remark).toBe(
    "from memory: pine of 350 to 560 kg/m³; 85 % to all of a 1.57 × 0.79 in section",
  );
});

it("says what hooks, rings and wire carry, and that a heavy piece has no wire", () => {
  expect(texts(hangingRows(BARS.hanging, "mm"))).toEqual({
    hooks: "rated 2.4 kg",
    rings: "each rated 6.8 kg",
    wire: "rated 6.8 kg",
  });
  // Derived: a ring is not screwed on to a tenth of a mm: 160.4 and 99, of inches 6.31 and 3.9.
  const rings = (unit: "mm" | "inch") => hangingRows(BARS.hanging, unit).find(({ name }) => name === "rings")?.remark;
  expect(rings("mm")).toBe("160 mm apart, 99 mm below the top edge");
  expect(rings("inch")).toBe("6.31 in apart, 3.9 in below the top edge");
  expect(texts(hangingRows(BARS.hanging, "mm", 340.9))["pitch"]).toBe("340.9 mm");
  const { wire: _wire, ...bare } = BARS.hanging;
  expect(texts(hangingRows(bare, "mm"))["wire"]).toBe("none");
  const why = (no_wire: "heavy" | "flat") =>
    hangingRows({ ...bare, no_wire }, "mm").find(({ name }) => name === "wire")?.remark;
  expect(why("heavy")).toMatch(/^too heavy/u);
  expect(why("flat")).toMatch(/^it would lie so flat that it pulls with over 5 times the weight/u);
});
