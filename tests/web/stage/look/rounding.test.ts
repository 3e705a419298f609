import { describe, expect, it } from "vitest";
import { LEVEL, putNearestBytes } from "../../../../web/src/stage/look/rounding";

type Three = readonly [number, number, number];

/** CIELAB of sRGB bytes, L* and a* and b*; the primaries of Rec. ITU-R BT.709 adapted to D50 by Bradford. */
function lab(bytes: Three): Three {
  const [r, g, b] = bytes.map((byte) => {
    const encoded = byte / 255;
    return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  const x = Math.cbrt((0.43607 * r + 0.38506 * g + 0.14308 * b) / 0.96422);
  const y = Math.cbrt(0.2225 * r + 0.71688 * g + 0.06062 * b);
  const z = Math.cbrt((0.01393 * r + 0.0971 * g + 0.71417 * b) / 0.82521);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** How far apart two colours beside grey look: CIEDE2000 counts a* half as much again there. */
function apart(one: Three, other: Three): number {
  const [l, a, b] = lab(one).map((value, i) => value - (lab(other)[i] ?? 0)) as [number, number, number];
  return Math.hypot(l, 1.5 * a, b);
}

function rounded(...colour: Three): Three {
  const out = new Uint8ClampedArray(5);
  putNearestBytes(out, 1, ...colour);
  return [out[1] ?? 0, out[2] ?? 0, out[3] ?? 0];
}

describe("putNearestBytes", () => {
  it("knows what a level changes at the middle grey", () => {
    for (const channel of [0, 1, 2] as const) {
      const above = lab([0, 1, 2].map((one) => 127.5 + (one === channel ? 1 : 0)) as unknown as Three);
      const below = lab([127.5, 127.5, 127.5]);
      // derived: the difference of CIELAB, a* half as much again; LEVEL has three decimals.
      for (const axis of [0, 1, 2] as const) {
        const factor = axis === 1 ? 1.5 : 1;
        expect(Math.abs((above[axis] - below[axis]) * factor - LEVEL[channel][axis])).toBeLessThan(0.0006);
      }
    }
  });

  it("leaves what is a byte, and holds the others to 0 to 255", () => {
    expect(rounded(0, 77, 255)).toEqual([0, 77, 255]);
    expect(rounded(128, 128, 128)).toEqual([128, 128, 128]);
    expect(rounded(-3, 300, 12)).toEqual([0, 255, 12]);
  });

  it("keeps greys grey: no channel goes up while another goes down", () => {
    expect(rounded(100.45, 100.55, 100.5)).toEqual([101, 101, 101]);
    expect(rounded(100.52, 100.42, 100.55)).toEqual([100, 100, 100]);
  });

  it("comes nearer than each channel by itself, and moves none by a level or more", () => {
    let alone = 0;
    let together = 0;
    let count = 0;
    for (let grey = 30; grey < 230; grey += 1) {
      const colour: Three = [grey + 0.37 * ((grey * 7) % 11), grey + 0.23 * ((grey * 5) % 13), grey + 0.41];
      const found = rounded(...colour);
      found.forEach((byte, i) => expect(Math.abs(byte - (colour[i] ?? 0))).toBeLessThan(1));
      alone += apart(colour, colour.map(Math.round) as unknown as Three);
      together += apart(colour, found);
      count += 1;
    }
    expect(count).toBe(200);
    // regression: 0.79 of the distance
    expect(together).toBeLessThan(0.85 * alone);
  });
});
