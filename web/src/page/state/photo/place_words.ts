// Where the piece hangs on the photographed wall, in one sentence.
import { hungSize } from "../../../photo/placing";
import { unit } from "../page/settings";
import { measured, wallPieces } from "./measured";
import { wallWork } from "./wall_work";
import { pieceSentences } from "./words";

/** The piece's size and place; undefined until the wall is measured. */
export function placeWords(): string | undefined {
  const [now, [pieces], seen] = [wallWork.value, wallPieces.value, measured.value];
  if (now === undefined || pieces === undefined || seen === undefined) return undefined;
  return pieceSentences(now.at, hungSize(pieces), seen, now.edges, unit.value);
}
