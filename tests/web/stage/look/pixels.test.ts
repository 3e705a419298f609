import { describe, expect, it } from "vitest";
import { lookPixels } from "../../../../web/src/stage/look/pixels";
import type { StageTexture } from "../../../../web/src/stage/types";
import { smallLook, straightCurve } from "../small_look";

function row(...colours: readonly (readonly [number, number, number])[]): StageTexture {
  const pixels = new Uint8Array(colours.flatMap(([r, g, b]) => [r, g, b, 255]));
  return { pixels, widthPx: colours.length, heightPx: 1 };
}

describe("lookPixels", () => {
  it("interpolates the printed view along all three axes", () => {
    const texture = row([10, 200, 77], [254, 254, 254], [0, 0, 0]);
    // derived: red and blue change places, green is halved.
    expect([...lookPixels(texture, smallLook(), "printed", 2)]).toEqual([
      77, 100, 10, 255, 254, 127, 254, 255, 0, 0, 0, 255,
    ]);
  });

  it("interpolates between more nodes as straight lines", () => {
    // A table of three nodes: red runs 0, 1, 0; the rest is 0.
    const printed = new Uint16Array(27 * 4);
    for (let node = 0; node < 27; node += 1) if (node % 3 === 1) printed[node * 4] = 0x3c00;
    const texture = row([51, 9, 9], [102, 0, 255], [204, 255, 0]);
    const seen = lookPixels(texture, { ...smallLook(), nodes: 3, curve: straightCurve(3), printed }, "printed", 2);
    // derived: 51 is 0.4 of the way from the first node to the second, 102 is 0.8; 204 is 0.6 past the second.
    expect([seen[0], seen[4], seen[8]]).toEqual([102, 204, 102]);
  });

  it("holds values to 0 to 1 after interpolating, not before", () => {
    const look = smallLook();
    // Red comes out of blue from -1 (0xbc00) to 1.
    for (let node = 0; node < 8; node += 1) look.printed[node * 4] = node & 4 ? 0x3c00 : 0xbc00;
    const seen = lookPixels(row([0, 0, 102], [0, 0, 153]), look, "printed", 2);
    // derived: -1 + 2 x 0.4 = -0.2, held to 0; -1 + 2 x 0.6 = 0.2, that is 51. Held before, the second were 153.
    expect([seen[0], seen[4]]).toEqual([0, 51]);
  });

  it("interpolates by tetrahedra, so that greys depend on the nodes of greys alone", () => {
    const look = smallLook();
    // Red is 1 in the node of pure green and 0 elsewhere.
    for (let node = 0; node < 8; node += 1) look.printed[node * 4] = node === 2 ? 0x3c00 : 0;
    const seen = lookPixels(row([128, 128, 128], [51, 204, 102], [204, 102, 51]), look, "printed", 2);
    // derived: (0.2, 0.8, 0.4) lies 0.8 - 0.4 towards green's node; with red larger than green its tetrahedron
    // has no such node. A box about the cell would give greys (1 - 0.5) x 0.5 x (1 - 0.5), that is 32.
    expect([seen[0], seen[4], seen[8]]).toEqual([0, 102, 0]);
  });

  it("puts every byte where the curve says", () => {
    const curve = straightCurve(2);
    for (let byte = 0; byte < 256; byte += 1) curve[byte * 4 + 1] = (byte / 255) ** 2;
    const seen = lookPixels(row([10, 102, 77]), { ...smallLook(), curve }, "printed", 2);
    // derived: green lies at 0.4 x 0.4 and is halved: 0.08 of 255.
    expect([...seen.subarray(0, 3)]).toEqual([77, 20, 10]);
  });

  it("shows the file as it is, unless it needs a table too", () => {
    const texture = row([1, 2, 3]);
    expect([...lookPixels(texture, smallLook(), "filed", 2)]).toEqual([1, 2, 3, 255]);
    const look = { ...smallLook(), filed: smallLook().printed };
    expect([...lookPixels(texture, look, "filed", 2)]).toEqual([3, 1, 1, 255]);
  });

  it("leaves the texture alone", () => {
    const texture = row([1, 2, 3]);
    lookPixels(texture, smallLook(), "clip", 0);
    expect([...texture.pixels]).toEqual([1, 2, 3, 255]);
  });

  it("paints the clip map: the scale above the threshold, pale grey at it and below", () => {
    // derived: a red of 50 is lost by 50 x 51 / 255 = 10, half of the scale, step 10 of 20; 10 by 2; 200 by 40.
    const seen = lookPixels(row([50, 0, 0], [10, 200, 77], [200, 0, 0]), smallLook(), "clip", 2);
    expect([...seen.subarray(0, 4)]).toEqual([100, 155, 7, 255]);
    // derived: printed as (77, 100, 10): luma 0.2126 x 77 + 0.7152 x 100 + 0.0722 x 10 = 88.61; 150 + 34.75.
    expect([...seen.subarray(4, 8)]).toEqual([185, 185, 185, 255]);
    expect([...seen.subarray(8, 12)]).toEqual([200, 55, 7, 255]);
  });

  it("marks no bare canvas", () => {
    const texture = {
      ...row([200, 0, 0], [200, 0, 0]),
      inked: { left: 0, top: 0, right: 1, bottom: 1 },
    };
    const seen = lookPixels(texture, smallLook(), "clip", 2);
    expect([...seen.subarray(0, 3)]).toEqual([200, 55, 7]);
    // derived: printed as (0, 0, 200), luma 14.44; 150 + 5.66.
    expect([...seen.subarray(4, 7)]).toEqual([156, 156, 156]);
  });

  it("lights a group up by letting the rest recede, with labels smaller than the texture", () => {
    // Forty pixels of one colour, twenty labels; the group is the last fifteen.
    const texture = row(...Array.from({ length: 40 }, () => [10, 200, 77] as const));
    const labels = {
      labels: new Uint8Array(20).fill(4, 5),
      widthPx: 20,
      heightPx: 1,
    };
    const seen = lookPixels(texture, smallLook(), "printed", 2, labels, 4);
    expect([...seen.subarray(0, 3)]).toEqual([185, 185, 185]);
    expect([...seen.subarray(39 * 4, 40 * 4)]).toEqual([77, 100, 10, 255]);
    expect(lookPixels(texture, smallLook(), "printed", 2, labels, 0)).toEqual(
      lookPixels(texture, smallLook(), "printed", 2),
    );
  });

  it("refuses labels that do not fill their size", () => {
    const labels = { labels: new Uint8Array(3), widthPx: 2, heightPx: 1 };
    expect(() => lookPixels(row([1, 2, 3]), smallLook(), "printed", 2, labels, 1)).toThrow(
      "labels: expected 2 x 1 bytes, got 3",
    );
  });
});
