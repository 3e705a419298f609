import { expect, it } from "vitest";
import { asWall, wallText } from "../../../../../web/src/page/state/photo/stored_wall";
import { newWall, type WallWork } from "../../../../../web/src/page/state/photo/wall_work";
import { roughCorners } from "../../../../../web/src/photo/marked_wall";

const photo = { name: "wall.jpg", blob: new Blob(["a"]), px: [1200, 900], focalPx: 971 } as const;
const work: WallWork = {
  ...newWall(photo),
  references: [{ size: "a4", corners: roughCorners(photo.px) }, { size: "80x80" }],
  at: [450, 180],
  edges: [{ kind: "floor", atMm: -900 }],
  strokes: [{ radiusPx: 12, points: [[3, 4]], clears: false }],
  proofColours: true,
};

it("comes back as it was kept", () => {
  expect(asWall({ ...photo, data: wallText(work) })).toEqual(work);
});

it.each([
  ["no text", undefined],
  ["no JSON", "{"],
  ["a corner too few", wallText(work).replace(/"corners":\[\[[^\]]*\],/, '"corners":[')],
  ["a strange edge", wallText(work).replace("floor", "ceiling")],
  ["light of more than all", wallText(work).replace('"roomLight":1', '"roomLight":7')],
])("takes nothing of a wall with %s, or takes it without the damaged mark", (_name, data) => {
  const found = asWall({ ...photo, ...(data === undefined ? {} : { data }) });
  expect(found?.references[0]?.corners).toBeUndefined();
});
