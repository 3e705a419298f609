/** The variants on a photographed wall, in the client's page: nothing is asked of any network. */
import { USUAL_SHADOW } from "../photo/light";
import { hungSize, isLarger, isSeen } from "../photo/placing";
import { cornersWrong, markedWall, roughCorners } from "../photo/marked_wall";
import { placeAt, type Corners, type Point } from "../photo/plane";
import type { Photo, PhotoHands, Tool } from "../photo/state";
import { PhotoView } from "../photo/view";
import type { StagePane } from "../stage/types";
import { element, pressable, reveal } from "./elements";
import type { Offer, OfferedWall } from "./offer";
import { openPhoto, type OwnPhoto, whiteOf } from "./own_photo";
import { type ClientWall, hungWords, ownWall } from "./own_state";
import { unparted } from "../speech/figures";
import { mark, say } from "../speech/say";

const HINTS: Record<Tool, string> = {
  corners: mark(
    "Drag each ring on to a corner of the paper; the magnifier shows it. Arrow keys move it by one pixel, with Shift by ten.",
  ),
  piece: mark("Drag the canvas along the wall, or use the arrow keys: 1 mm, with Shift 10 mm."),
  edges: mark("Drag the dashed line down to the floor, or use the arrow keys."),
  brush: "",
};
const NO_RECTANGLE = mark(
  "No such sheet has its corners there; mark them again, check the paper, and use the whole photograph as the camera made it.",
);
const TOO_LARGE = mark("The canvas is larger than the wall in view; photograph more of the wall.");
const NAMES = [mark("Upper left"), mark("Upper right"), mark("Lower right"), mark("Lower left")];

/** Let the client see the variants on a wall. Returns the function to call when another one is chosen. */
export function hangOnWall(
  offer: Offer,
  panes: readonly StagePane[],
  said: (lines: readonly string[]) => void,
): (number: number) => void {
  let photo: OwnPhoto | undefined;
  let wall: ClientWall | undefined;
  let corners: Corners | undefined;
  let at: Point = [0, 0];
  let floorMm: number | undefined;
  let tool: Tool = "corners";
  let chosen = 0;
  let isOwn = false;
  /** The client has moved the piece. */
  let moved = false;
  const light = element("own-light", HTMLInputElement);
  const paperChoice = element("own-size", HTMLSelectElement);
  const wrong = element("own-error", HTMLElement);
  const status = element("own-says", HTMLElement);
  const paperMm = (): Point => {
    const [width = 210, height = 297] = paperChoice.value.split("x").map(Number);
    return [width, height];
  };
  let shadow = USUAL_SHADOW;
  /** The corners that a hand has moved. */
  const placed = new Set<number>();

  const hands: PhotoHands = {
    moveCorner(_reference, corner, to, done) {
      if (corners === undefined) return;
      const of = (number: number): Point => (number === corner ? to : (corners?.[number] ?? to));
      corners = [of(0), of(1), of(2), of(3)];
      placed.add(corner);
      // Before all four are on the paper it is neither measured nor judged, and nothing hangs by former corners.
      if (done && placed.size === corners.length) measure();
      else if (done) unhang();
      refresh();
    },
    movePiece(to) {
      const pieces = panes[chosen]?.pieces ?? [];
      if (wall === undefined || photo === undefined || !wall.isFree) return;
      if (!isSeen(wall.camera, to, hungSize(pieces), photo.px)) return;
      at = [Math.round(to[0]), Math.round(to[1])];
      moved = true;
      refresh();
    },
    moveEdge(_kind, atMm) {
      floorMm = Math.round(atMm);
      refresh();
    },
    paint: () => {},
    undoStroke: () => {},
  };
  const host = element("own-view", HTMLElement);
  // Made when there is something to show, so that its place has a size.
  let view: PhotoView | undefined;

  /** Why nothing hangs by these corners. */
  let refused = "";
  const unhang = (): void => {
    wall = undefined;
    refused = "";
  };

  const measure = (): void => {
    if (photo === undefined || corners === undefined) return;
    const size = paperMm();
    const crossed = cornersWrong(corners);
    const found = crossed === undefined ? markedWall(size, corners, photo.px, photo.focalPx) : undefined;
    refused = crossed ?? (found?.isRectangle === true ? "" : say(NO_RECTANGLE));
    wall = found?.isRectangle === true ? ownWall(size, found, whiteOf(photo, size, corners)) : undefined;
    drawFloor();
  };
  /** Where the floor is marked, its line begins near the photograph's lower edge. */
  const drawFloor = (): void => {
    if (tool !== "edges" || floorMm !== undefined || wall === undefined || photo === undefined) return;
    floorMm = Math.round(placeAt(wall.camera, [photo.px[0] / 2, photo.px[1] * 0.97], 0)[1]);
  };

  const refresh = (): void => {
    if (photo === undefined) return;
    const pieces = panes[chosen]?.pieces ?? [];
    const size = hungSize(pieces);
    const isTooLarge = wall !== undefined && isLarger(wall.camera, at, size, photo.px);
    const hung = isTooLarge ? undefined : wall;
    wrong.textContent = isTooLarge ? say(TOO_LARGE) : refused;
    const words = hung === undefined ? "" : hungWords(size, hung.within(at, size), at, floorMm);
    host.style.aspectRatio = photo.px.join(" / ");
    view ??= new PhotoView(host, hands, (frames) => (host.dataset["frames"] = String(frames)));
    view.update({
      photo,
      tool,
      references: corners === undefined ? [] : [corners],
      ...(hung === undefined ? {} : { wall: hung }),
      pieces,
      at,
      look: { amount: light.valueAsNumber, shadow, fromDeg: wall?.fromDeg ?? 0 },
      edges: floorMm === undefined ? [] : [{ kind: "floor", atMm: floorMm }],
      strokes: [],
      radiusPx: 1,
      clears: false,
      words: {
        piece: say("The canvas, {words}. {piece}", { words, piece: wall?.isFree === true ? say(HINTS.piece) : "" }),
        corner: (_reference, corner) =>
          say("{names} corner of the paper. Arrow keys move it.", { names: say(NAMES[corner] ?? "") }),
        edge: () => say("The floor. Arrow keys move it by 1 mm, with Shift by 10 mm."),
      },
    });
    const usual =
      wall?.isUsual === true ? say(" The view is nearly frontal, so the sides may be drawn a little off.") : "";
    const { label = "", letter = "" } = offer.variants[chosen] ?? {};
    const name = `${letter} ${label}`.trim();
    status.textContent = words === "" ? "" : unparted(`${name === "" ? "" : `${name}: `}${words}.${usual}`);
    // Until the client has done something here, the answer says nothing of a wall.
    said(words === "" || (!isOwn && wall?.isFree === true && !moved) ? [] : [say("On the wall: {words}", { words })]);
  };

  const press = pressable("own-tool", "many", (word) => {
    tool = word === "edges" ? "edges" : word === "piece" ? "piece" : "corners";
    if (tool !== "corners" && wall === undefined) measure();
    drawFloor();
    element("own-hint", HTMLElement).textContent = say(HINTS[tool]);
    refresh();
  });
  const turnTo = (word: Tool): void => {
    press(word);
    tool = word;
    element("own-hint", HTMLElement).textContent = wall?.isFree === false ? "" : say(HINTS[word]);
    reveal("own-work");
    refresh();
  };

  let openings = 0;
  const open = async (file: File): Promise<void> => {
    openings += 1;
    const opening = openings;
    wrong.textContent = "";
    let next: OwnPhoto;
    try {
      next = await openPhoto(file, file.name);
    } catch (failure) {
      if (opening !== openings) return;
      wrong.textContent = failure instanceof Error ? failure.message : String(failure);
      return;
    }
    // Another one was chosen meanwhile.
    if (opening !== openings) {
      next.image.close();
      return;
    }
    const former = photo;
    photo = next;
    isOwn = true;
    floorMm = undefined;
    // The light and the shadow are another room's.
    shadow = USUAL_SHADOW;
    light.value = light.defaultValue;
    corners = roughCorners(photo.px);
    at = [paperMm()[0] / 2, paperMm()[1] / 2];
    element("own-marks", HTMLElement).hidden = false;
    element("own-paper", HTMLElement).hidden = false;
    // Nothing hangs there before a hand has moved the rings to the paper.
    placed.clear();
    unhang();
    turnTo("corners");
    host.dataset["file"] = file.name;
    // The view draws the former one until here.
    former?.image.close();
  };
  const files = { "own-open": "own-file", "own-take": "own-camera" };
  for (const [button, entry] of Object.entries(files)) {
    const input = element(entry, HTMLInputElement);
    element(button, HTMLButtonElement).addEventListener("click", () => input.click());
    input.addEventListener("change", () => {
      const [file] = input.files ?? [];
      input.value = "";
      if (file !== undefined) void open(file);
    });
  }
  light.addEventListener("input", refresh);
  paperChoice.addEventListener("change", () => {
    if (wall !== undefined || refused !== "") measure();
    refresh();
  });
  reveal("own-wall");
  if (offer.wall !== undefined) {
    void offeredPhoto(offer.wall).then((given) => {
      if (photo !== undefined || offer.wall === undefined) {
        given.image.close();
        return;
      }
      photo = given;
      at = offer.wall.atMm;
      floorMm = offer.wall.floorMm;
      shadow = offer.wall.shadow;
      light.value = String(offer.wall.roomLight);
      wall = givenWall(offer.wall);
      element("own-marks", HTMLElement).hidden = true;
      turnTo("piece");
    });
  }
  return (number) => {
    chosen = number;
    refresh();
  };
}

async function offeredPhoto({ photo, px }: OfferedWall): Promise<Photo> {
  const image = new Image();
  image.src = photo;
  await image.decode();
  return { image: await createImageBitmap(image), px };
}

function givenWall({ camera, light, fromDeg, isFree, withinMm }: OfferedWall): ClientWall {
  return { camera, light, fromDeg, isFree, within: () => withinMm, isUsual: false };
}
