// What the core is asked to measure on a wall, and what hangs there.
import { expect, it } from "vitest";
import { placedWall, wallPanes, wallPieces } from "../../../../../web/src/page/state/photo/measured";
import { newWall } from "../../../../../web/src/page/state/photo/wall_work";
import { begin } from "../../../../../web/src/page/state/work/history";
import { NO_PICTURE } from "../../../../../web/src/page/state/work/pictures";
import { history, type Shown, shown, type Work } from "../../../../../web/src/page/state/work/work";
import { roughCorners } from "../../../../../web/src/photo/marked_wall";
import { hungSize } from "../../../../../web/src/photo/placing";
import { stripFold } from "../../../stage/strip_fold";
import { JOB } from "../../jobs";

const photo = { name: "wall.jpg", blob: new Blob(["a"]), px: [1200, 900] } as const;

it("is nothing by corners that no one has found or moved yet", () => {
  const [first, ...rest] = roughCorners(photo.px);
  const wall = { ...newWall(photo), references: [{ size: "a4", corners: roughCorners(photo.px) }] };
  expect(placedWall(wall, JOB)).toBeUndefined();
  const moved = { ...wall, references: [{ size: "a4", corners: [[first[0] - 1, first[1]], ...rest] as const }] };
  expect(placedWall(moved, JOB)?.references).toHaveLength(1);
});

it("knows how large hangs what has no canvas for the wall yet", () => {
  const state = { job: JOB, picture: 1, demo: false } as Work;
  history.value = begin(state, "");
  shown.value = {
    fold: stripFold,
    panels: [{ centre_mm: [0, 0], top_px: 0, bottom_px: 1 }],
  } as unknown as Shown;
  expect(wallPanes.value).toEqual([]);
  const [pieces = []] = wallPieces.value;
  expect(hungSize(pieces)).toMatchObject({ widthMm: JOB.face.width_mm, heightMm: JOB.face.height_mm });
  // Without the job's picture nothing hangs.
  history.value = begin({ ...state, picture: NO_PICTURE }, "");
  expect(wallPieces.value).toEqual([]);
});
