import { describe, expect, it } from "vitest";
import { checkLabels, checkLook, halfToNumber, tableOf } from "../../../../web/src/stage/look/table";
import { smallLook } from "../small_look";

describe("halfToNumber", () => {
  // published: IEEE 754-2008, binary16: 5 bits of exponent with bias 15, 10 of fraction.
  it.each([
    [0x0000, 0],
    [0x3c00, 1],
    [0xbc00, -1],
    [0x3800, 0.5],
    [0x3555, 0.333251953125],
    [0x7bff, 65504],
    [0x0001, 2 ** -24],
    [0x03ff, 1023 * 2 ** -24],
    [0x0400, 2 ** -14],
    [0xb266, -0.199951171875],
    [0x7c00, Infinity],
    [0xfc00, -Infinity],
  ])("reads %d", (bits, number) => {
    expect(halfToNumber(bits)).toBe(number);
  });

  it("reads what is no number", () => {
    expect(halfToNumber(0x7e00)).toBeNaN();
  });
});

describe("tableOf", () => {
  it("works a table out once", () => {
    const halves = new Uint16Array([0x3c00, 0x3800]);
    expect([...tableOf(halves)]).toEqual([1, 0.5]);
    expect(tableOf(halves)).toBe(tableOf(halves));
    expect(tableOf(new Uint16Array(halves))).not.toBe(tableOf(halves));
  });
});

describe("checkLook", () => {
  it("takes a whole look", () => {
    expect(() => checkLook(smallLook())).not.toThrow();
  });

  it.each([
    [{ nodes: 1 }, "look.nodes: expected a whole number from 2 on, got 1"],
    // derived: three channels and one to spare of 256 bytes.
    [{ curve: new Float32Array(256) }, "look.curve: expected 1024 numbers, got 256"],
    // derived: 2 x 2 x 2 nodes of 4 channels are 32 numbers.
    [{ printed: new Uint16Array(31) }, "look.printed: expected 32 numbers, got 31"],
    [{ filed: new Uint16Array(8) }, "look.filed: expected 32 numbers, got 8"],
    [{ scale: new Uint8Array(7) }, "look.scale: expected three bytes for each of two or more steps, got 7"],
    [{ scale: new Uint8Array(3) }, "look.scale: expected three bytes for each of two or more steps, got 3"],
    [{ clipFullDe: 0 }, "look.clipFullDe: expected more than 0, got 0"],
    [{ scaleFullDe: Number.NaN }, "look.scaleFullDe: expected more than 0, got NaN"],
  ])("refuses %o", (wrong, message) => {
    expect(() => checkLook({ ...smallLook(), ...wrong })).toThrow(message);
  });
});

describe("checkLabels", () => {
  it("takes labels that fill their size", () => {
    expect(() => checkLabels({ labels: new Uint8Array(6), widthPx: 3, heightPx: 2 })).not.toThrow();
  });

  it.each([
    [3, 3, "labels: expected 3 x 3 bytes, got 6"],
    [0, 0, "labels: expected 0 x 0 bytes, got 6"],
  ])("refuses %d x %d", (widthPx, heightPx, message) => {
    expect(() => checkLabels({ labels: new Uint8Array(6), widthPx, heightPx })).toThrow(message);
  });
});
