/** A wall in the client's page: the printmaker's or the client's own, and where the piece hangs on it. Pure. */
import type { MarkedWall } from "../photo/marked_wall";
import type { RoomLight } from "../photo/light";
import { distanceMm, type HungSize } from "../photo/placing";
import type { Camera, Point } from "../photo/plane";
import { MM_PER_INCH, trimmed } from "../units";
import { say } from "../speech/say";

/** The wall as the viewer hangs the variants on it. */
export interface ClientWall {
  readonly camera: Camera;
  readonly light: RoomLight;
  readonly fromDeg: number;
  /** The piece may be moved. */
  readonly isFree: boolean;
  /** How sure its width and height are, mm. */
  readonly within: (at: Point, size: HungSize) => Point;
  /** The view is too frontal to tell the lens. */
  readonly isUsual: boolean;
}

/** A wall of which the client has marked the paper's corners. */
export function ownWall(paper: Point, marked: MarkedWall, white: RoomLight["white"]): ClientWall {
  return {
    camera: marked.camera,
    light: { white, middleMm: [paper[0] / 2, paper[1] / 2], fall: [0, 0], mostFactor: 1 },
    fromDeg: 0,
    isFree: true,
    within: (at, { widthMm, heightMm }) => marked.withinMm(at, [widthMm, heightMm]),
    isUsual: marked.focalFrom === "usual",
  };
}

function length(mm: number): string {
  return say("{mm} mm ({mm2} in)", { mm: trimmed(mm, 0), mm2: trimmed(mm / MM_PER_INCH, 1) });
}

/** Size and place in one sentence, for the answer and for those who do not see the photograph. */
export function hungWords(size: HungSize, within: Point, at: Point, floorMm: number | undefined): string {
  const sure = Math.max(1, Math.ceil(Math.max(...within)));
  const wide = say("{widthMm} × {heightMm} mm, within {sure} mm", {
    widthMm: trimmed(size.widthMm, 1),
    heightMm: trimmed(size.heightMm, 1),
    sure,
  });
  if (floorMm !== undefined) {
    const high = distanceMm({ kind: "floor", atMm: floorMm }, at, size);
    return say("{wide}; its middle {length} above the floor", { wide, length: length(high) });
  }
  const across = say("{length} {words} of", {
    length: length(Math.abs(at[0])),
    words: at[0] < 0 ? say("left") : say("right"),
  });
  return say("{wide}; its middle {across} and {length} {words} the paper's lower left corner", {
    wide,
    across,
    length: length(Math.abs(at[1])),
    words: at[1] < 0 ? say("below") : say("above"),
  });
}
