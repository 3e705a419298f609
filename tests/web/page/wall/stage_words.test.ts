// The sentence that follows the stage.
import { afterEach, describe, expect, it } from "vitest";
import german from "../../../../pycore/speech/data/de.json";
import type { Job } from "../../../../web/src/contract/types";
import { stageWords, type StageSeen } from "../../../../web/src/page/wall/stage_words";
import { speak } from "../../../../web/src/speech/say";

afterEach(() => speak("en", {}));

function seen(change: Partial<StageSeen> = {}, panels = 1): string {
  const job = {
    face: { width_mm: 300, height_mm: 200 },
    bars: { depth_mm: 20 },
    group: { panels },
    sides: { fill: "mirror" },
  } as unknown as Job;
  return stageWords({
    job,
    unit: "mm",
    scene: "wall",
    fold: 1,
    view: "Corner",
    colours: "filed",
    place: "",
    ...change,
  });
}

describe("the text of the stage", () => {
  it("says size, depth, fold, viewpoint, colours and sides", () => {
    expect(seen()).toBe(
      "A canvas of 300 × 200 mm on bars 20 mm deep, folded, seen from: corner, in its original colours. Sides: mirror.",
    );
  });

  it("follows the fold, a view by hand and the colours", () => {
    const words = seen({ fold: 0.55, view: undefined, colours: "clip" });
    expect(words).toContain("55 % folded, seen from where you turned it, as a gamut map");
    expect(seen({ fold: 0 })).toContain(", flat,");
  });

  it("keeps German capitals, and says in German that nothing is folded", () => {
    speak("de", german);
    const words = seen({ fold: 0, view: "Ecke" });
    expect(words).toContain(", flach, gesehen von: Ecke,");
    expect(words).toMatch(/Seiten: [A-Z]\w+\.$/);
  });

  it("says on the photographed wall where the piece hangs, and nothing of the fold", () => {
    expect(seen({ scene: "photo", place: "Its middle is here." })).toBe(
      "A canvas of 300 × 200 mm on the photograph of the wall. Its middle is here.",
    );
    expect(seen({ scene: "photo" })).toBe("A canvas of 300 × 200 mm on the photograph of the wall.");
  });

  it("counts the canvases of a group, and knows the sheet", () => {
    expect(seen({ scene: "sheet", colours: "printed" }, 3)).toBe(
      "3 canvases of 300 × 200 mm on its sheet, in the colours as printed.",
    );
  });
});
