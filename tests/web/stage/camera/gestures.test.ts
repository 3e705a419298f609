import { describe, expect, it } from "vitest";
import { keyWish, NOTHING, pointerWish, wheelZoom } from "../../../../web/src/stage/camera/gestures";

describe("pointerWish", () => {
  it("turns with one finger, pans with the other button", () => {
    const before = [{ x: 10, y: 20 }];
    const after = [{ x: 15, y: 18 }];
    expect(pointerWish(before, after, false)).toEqual({
      ...NOTHING,
      turnX: 5,
      turnY: -2,
    });
    expect(pointerWish(before, after, true)).toEqual({
      ...NOTHING,
      panX: 5,
      panY: -2,
    });
  });

  it("pans and zooms with two fingers", () => {
    const wish = pointerWish(
      [
        { x: 0, y: 0 },
        { x: 100, y: 0 },
      ],
      [
        { x: 0, y: 10 },
        { x: 200, y: 10 },
      ],
      false,
    );
    // derived: the middle goes from (50, 0) to (100, 10); twice as far apart comes nearer by one half.
    expect(wish).toEqual({ ...NOTHING, panX: 50, panY: 10, zoom: 0.5 });
  });

  it("asks for nothing without fingers", () => {
    expect(pointerWish([], [], false)).toEqual(NOTHING);
  });

  it("does not leap when fingers meet", () => {
    const wish = pointerWish(
      [
        { x: 0, y: 0 },
        { x: 1, y: 0 },
      ],
      [
        { x: 0, y: 0 },
        { x: 2, y: 0 },
      ],
      false,
    );
    expect(wish.zoom).toBe(1);
  });
});

describe("wheelZoom", () => {
  it("steps back when rolled down, and returns by as much", () => {
    expect(wheelZoom(100, 0)).toBeGreaterThan(1);
    expect(wheelZoom(100, 0) * wheelZoom(-100, 0)).toBeCloseTo(1, 12);
  });

  it("counts lines as sixteen pixels and bounds one roll", () => {
    expect(wheelZoom(3, 1)).toBeCloseTo(wheelZoom(48, 0), 12);
    expect(wheelZoom(1e6, 0)).toBe(wheelZoom(240, 0));
  });
});

describe("keyWish", () => {
  it("turns with arrows, pans with Shift", () => {
    expect(keyWish("ArrowLeft", false)?.turnX).toBeGreaterThan(0);
    expect(keyWish("ArrowUp", false)?.turnY).toBeGreaterThan(0);
    expect(keyWish("ArrowRight", true)?.panX).toBeLessThan(0);
    expect(keyWish("ArrowDown", true)?.panY).toBeLessThan(0);
  });

  it("zooms with plus and minus, and knows no other keys", () => {
    expect(keyWish("+", true)?.zoom).toBeLessThan(1);
    expect(keyWish("-", false)?.zoom).toBeGreaterThan(1);
    expect(keyWish("a", false)).toBeUndefined();
    expect(keyWish("toString", false)).toBeUndefined();
  });
});
