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
  const own = new OwnWall(offer, panes, said);
  own.listen();
  reveal("own-wall");
  if (offer.wall !== undefined) void own.hangOffered(offer.wall);
  return (number) => own.choose(number);
}

/** The wall in its photograph, what is marked on it, and the piece that hangs there. */
class OwnWall implements PhotoHands {
  readonly #offer: Offer;
  readonly #panes: readonly StagePane[];
  readonly #said: (lines: readonly string[]) => void;

  readonly #light = element("own-light", HTMLInputElement);
  readonly #paperChoice = element("own-size", HTMLSelectElement);
  readonly #wrong = element("own-error", HTMLElement);
  readonly #status = element("own-says", HTMLElement);
  readonly #hint = element("own-hint", HTMLElement);
  readonly #host = element("own-view", HTMLElement);
  readonly #press: (word: Tool) => void;
  /** Made when there is something to show, so that its place has a size. */
  #view: PhotoView | undefined;

  #photo: OwnPhoto | undefined;
  /** The photograph is the client's, not the one that came with the page. */
  #isOwn = false;
  /** Counts what is opened. */
  #openings = 0;
  /** The photograph that is open, by its number: what comes later of an earlier one is let go. */
  #open = 0;
  /** Why the photograph that was chosen last is not open. */
  #unread = "";
  #corners: Corners | undefined;
  /** The corners that a hand has moved. */
  readonly #placed = new Set<number>();
  #wall: ClientWall | undefined;
  /** Why nothing hangs by these corners. */
  #refused = "";
  #floorMm: number | undefined;
  #at: Point = [0, 0];
  /** The client has moved the piece. */
  #moved = false;
  #shadow = USUAL_SHADOW;
  #tool: Tool = "corners";
  #chosen = 0;

  constructor(offer: Offer, panes: readonly StagePane[], said: (lines: readonly string[]) => void) {
    this.#offer = offer;
    this.#panes = panes;
    this.#said = said;
    this.#press = pressable("own-tool", "many", (word) => this.#take(word));
  }

  /** Follow what opens photographs and what changes the light and the paper. */
  listen(): void {
    const files = { "own-open": "own-file", "own-take": "own-camera" };
    for (const [button, entry] of Object.entries(files)) {
      const input = element(entry, HTMLInputElement);
      element(button, HTMLButtonElement).addEventListener("click", () => input.click());
      input.addEventListener("change", () => {
        const [file] = input.files ?? [];
        input.value = "";
        if (file !== undefined) void this.#read(file);
      });
    }
    this.#light.addEventListener("input", () => this.#refresh());
    this.#paperChoice.addEventListener("change", () => {
      if (this.#wall !== undefined || this.#refused !== "") this.#measure();
      this.#refresh();
    });
  }

  /** Hang another variant. */
  choose(number: number): void {
    this.#chosen = number;
    this.#refresh();
  }

  /** Hang the piece on the wall that came with the page, unless the client has opened another. */
  async hangOffered(offered: OfferedWall): Promise<void> {
    const given = await offeredPhoto(offered);
    if (this.#photo !== undefined) {
      given.image.close();
      return;
    }
    this.#photo = given;
    this.#at = offered.atMm;
    this.#floorMm = offered.floorMm;
    this.#shadow = offered.shadow;
    this.#light.value = String(offered.roomLight);
    this.#wall = givenWall(offered);
    element("own-marks", HTMLElement).hidden = true;
    this.#turnTo("piece");
  }

  moveCorner(_reference: number, corner: number, to: Point, done: boolean): void {
    const corners = this.#corners;
    if (corners === undefined) return;
    const of = (number: 0 | 1 | 2 | 3): Point => (number === corner ? to : corners[number]);
    this.#corners = [of(0), of(1), of(2), of(3)];
    this.#placed.add(corner);
    // Before all four are on the paper it is neither measured nor judged, and nothing hangs by former corners.
    if (done && this.#placed.size === corners.length) this.#measure();
    else if (done) this.#unhang();
    this.#refresh();
  }

  movePiece(to: Point): void {
    if (this.#wall === undefined || this.#photo === undefined || !this.#wall.isFree) return;
    if (!isSeen(this.#wall.camera, to, hungSize(this.#pieces), this.#photo.px)) return;
    this.#at = [Math.round(to[0]), Math.round(to[1])];
    this.#moved = true;
    this.#refresh();
  }

  moveEdge(_kind: unknown, atMm: number): void {
    this.#floorMm = Math.round(atMm);
    this.#refresh();
  }

  paint(): void {}

  undoStroke(): void {}

  get #pieces(): StagePane["pieces"] {
    return this.#panes[this.#chosen]?.pieces ?? [];
  }

  get #paperMm(): Point {
    const [width = 210, height = 297] = this.#paperChoice.value.split("x").map(Number);
    return [width, height];
  }

  async #read(file: File): Promise<void> {
    this.#openings += 1;
    const opening = this.#openings;
    this.#unread = "";
    this.#wrong.textContent = "";
    let next: OwnPhoto;
    try {
      next = await openPhoto(file, file.name);
    } catch (failure) {
      if (opening < this.#open) return;
      this.#unread = failure instanceof Error ? failure.message : String(failure);
      this.#wrong.textContent = this.#unread;
      return;
    }
    // Another one has been opened meanwhile.
    if (opening < this.#open) {
      next.image.close();
      return;
    }
    this.#open = opening;
    if (opening === this.#openings) this.#unread = "";
    const former = this.#photo;
    this.#begin(next);
    this.#host.dataset["file"] = file.name;
    // The view draws the former one until here.
    former?.image.close();
  }

  /** Take the client's photograph, on which nothing is marked yet. */
  #begin(photo: OwnPhoto): void {
    this.#photo = photo;
    this.#isOwn = true;
    this.#floorMm = undefined;
    // The light and the shadow are another room's.
    this.#shadow = USUAL_SHADOW;
    this.#light.value = this.#light.defaultValue;
    this.#corners = roughCorners(photo.px);
    const [width, height] = this.#paperMm;
    this.#at = [width / 2, height / 2];
    element("own-marks", HTMLElement).hidden = false;
    element("own-paper", HTMLElement).hidden = false;
    // Nothing hangs there before a hand has moved the rings to the paper.
    this.#placed.clear();
    this.#unhang();
    this.#turnTo("corners");
  }

  #unhang(): void {
    this.#wall = undefined;
    this.#refused = "";
  }

  #measure(): void {
    const [photo, corners, size] = [this.#photo, this.#corners, this.#paperMm];
    if (photo === undefined || corners === undefined) return;
    const crossed = cornersWrong(corners);
    const found = crossed === undefined ? markedWall(size, corners, photo.px, photo.focalPx) : undefined;
    this.#refused = crossed ?? (found?.isRectangle === true ? "" : say(NO_RECTANGLE));
    this.#wall = found?.isRectangle === true ? ownWall(size, found, whiteOf(photo, size, corners)) : undefined;
    this.#drawFloor();
  }

  /** Where the floor is marked, its line begins near the photograph's lower edge. */
  #drawFloor(): void {
    const [photo, wall] = [this.#photo, this.#wall];
    if (this.#tool !== "edges" || this.#floorMm !== undefined || wall === undefined || photo === undefined) return;
    this.#floorMm = Math.round(placeAt(wall.camera, [photo.px[0] / 2, photo.px[1] * 0.97], 0)[1]);
  }

  /** The client has pressed a tool. */
  #take(word: string): void {
    this.#tool = word === "edges" ? "edges" : word === "piece" ? "piece" : "corners";
    if (this.#tool !== "corners" && this.#wall === undefined) this.#measure();
    this.#drawFloor();
    this.#hint.textContent = say(HINTS[this.#tool]);
    this.#refresh();
  }

  #turnTo(word: Tool): void {
    this.#press(word);
    this.#tool = word;
    this.#hint.textContent = this.#wall?.isFree === false ? "" : say(HINTS[word]);
    reveal("own-work");
    this.#refresh();
  }

  #refresh(): void {
    const [photo, wall] = [this.#photo, this.#wall];
    if (photo === undefined) return;
    const size = hungSize(this.#pieces);
    const isTooLarge = wall !== undefined && isLarger(wall.camera, this.#at, size, photo.px);
    const hung = isTooLarge ? undefined : wall;
    this.#wrong.textContent = isTooLarge ? say(TOO_LARGE) : this.#refused || this.#unread;
    const words = hung === undefined ? "" : hungWords(size, hung.within(this.#at, size), this.#at, this.#floorMm);
    this.#draw(photo, hung, words);
    this.#tell(words);
  }

  #draw(photo: Photo, hung: ClientWall | undefined, words: string): void {
    const [wall, host] = [this.#wall, this.#host];
    host.style.aspectRatio = photo.px.join(" / ");
    this.#view ??= new PhotoView(host, this, (frames) => (host.dataset["frames"] = String(frames)));
    this.#view.update({
      photo,
      tool: this.#tool,
      references: this.#corners === undefined ? [] : [this.#corners],
      ...(hung === undefined ? {} : { wall: hung }),
      pieces: this.#pieces,
      at: this.#at,
      look: { amount: this.#light.valueAsNumber, shadow: this.#shadow, fromDeg: wall?.fromDeg ?? 0 },
      edges: this.#floorMm === undefined ? [] : [{ kind: "floor", atMm: this.#floorMm }],
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
  }

  /** Say beside the wall, and in the answer, where the piece hangs. */
  #tell(words: string): void {
    const wall = this.#wall;
    const usual =
      wall?.isUsual === true ? say(" The view is nearly frontal, so the sides may be drawn a little off.") : "";
    const { label = "", letter = "" } = this.#offer.variants[this.#chosen] ?? {};
    const name = `${letter} ${label}`.trim();
    this.#status.textContent = words === "" ? "" : unparted(`${name === "" ? "" : `${name}: `}${words}.${usual}`);
    // Until the client has done something here, the answer says nothing of a wall.
    const isUntouched = !this.#isOwn && wall?.isFree === true && !this.#moved;
    this.#said(words === "" || isUntouched ? [] : [say("On the wall: {words}", { words })]);
  }
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
