// What the core is asked to measure on a wall.
import { expect, it } from "vitest";
import { placedWall } from "../../../../../web/src/page/state/photo/measured";
import { newWall } from "../../../../../web/src/page/state/photo/wall_work";
import { roughCorners } from "../../../../../web/src/photo/marked_wall";
import { JOB } from "../../jobs";

const photo = { name: "wall.jpg", blob: new Blob(["a"]), px: [1200, 900] } as const;

it("is nothing by corners that no one has found or moved yet", () => {
  const [first, ...rest] = roughCorners(photo.px);
  const wall = { ...newWall(photo), references: [{ size: "a4", corners: roughCorners(photo.px) }] };
  expect(placedWall(wall, JOB)).toBeUndefined();
  const moved = { ...wall, references: [{ size: "a4", corners: [[first[0] - 1, first[1]], ...rest] as const }] };
  expect(placedWall(moved, JOB)?.references).toHaveLength(1);
});
