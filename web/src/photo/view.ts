/** A photographed wall with the piece on it, moved by pointer and keys; for the page and for the client's page. */
import { drawnRatio } from "../stage/drawing/ratio";
import { say } from "../speech/say";
import { movable, roundHandle } from "./handles";
import { PhotoLines } from "./lines";
import { Magnifier } from "./magnifier";
import { PiecePainter } from "./painter";
import { PainterUnavailable } from "./program";
import { frontOutline, hungSize, isLevel, type EdgeKind } from "./placing";
import { placeAt, type Point, seenAt } from "./plane";
import { brushOver } from "./brush";
import type { PhotoHands, PhotoState } from "./state";
import { drawStrokes, maskCanvas } from "./strokes";

export class PhotoView {
  private readonly frame = document.createElement("div");
  private readonly picture = document.createElement("canvas");
  private readonly surface = document.createElement("canvas");
  private readonly piece = document.createElement("div");
  private readonly lines = new PhotoLines();
  private readonly magnifier = new Magnifier();
  private readonly painter: PiecePainter | undefined;
  private readonly handles = new Map<string, HTMLButtonElement>();
  private readonly watcher: ResizeObserver;
  private readonly brush: { readonly element: HTMLElement };
  private mask: HTMLCanvasElement | undefined;
  private strokes: PhotoState["strokes"] = [];
  private painted = 0;
  private state: PhotoState | undefined;
  private sized = "";

  /** `drawn` is called after each frame of the piece. */
  constructor(
    private readonly host: HTMLElement,
    private readonly hands: PhotoHands,
    drawn: (frames: number) => void = () => {},
  ) {
    const { frame, picture, surface, piece } = this;
    frame.dataset["photo"] = "frame";
    frame.style.cssText = "position:absolute;overflow:hidden;touch-action:pan-y";
    picture.setAttribute("role", "img");
    picture.setAttribute("aria-label", say("The photograph of the wall"));
    for (const canvas of [picture, surface]) {
      canvas.style.cssText = "position:absolute;inset:0;inline-size:100%;block-size:100%;display:block";
    }
    surface.setAttribute("aria-hidden", "true");
    surface.style.pointerEvents = "none";
    piece.tabIndex = 0;
    piece.dataset["handle"] = "piece";
    piece.setAttribute("role", "application");
    piece.style.cssText = "position:absolute;cursor:move;touch-action:none";
    this.brush = brushOver({
      perPx: () => this.perPx,
      state: () => this.state,
      paint: (stroke) => hands.paint(stroke),
      undo: () => hands.undoStroke(),
      preview: (stroke) => this.paintMask(stroke === undefined ? this.strokes : [...this.strokes, stroke]),
      ring: (at) => this.lines.showRing(at, this.state?.radiusPx ?? 0),
    });
    frame.append(picture, surface, this.lines.element, piece, this.brush.element, this.magnifier.element);
    host.append(frame);
    try {
      this.painter = new PiecePainter(surface, drawn);
    } catch (failure) {
      if (!(failure instanceof PainterUnavailable)) throw failure;
    }
    this.followPiece();
    this.watcher = new ResizeObserver(() => this.layOut());
    this.watcher.observe(host);
  }

  /** Whether this browser draws the piece. */
  get draws(): boolean {
    return this.painter !== undefined;
  }

  update(next: PhotoState): void {
    const before = this.state;
    this.state = next;
    if (before?.photo !== next.photo) this.sized = "";
    this.layOut();
    if (before?.photo !== next.photo) this.mask = undefined;
    if (before?.strokes !== next.strokes || before.photo !== next.photo) {
      this.strokes = next.strokes;
      this.paintMask(next.strokes);
    } else this.paint();
    this.placeHandles(next);
  }

  dispose(): void {
    this.watcher.disconnect();
    this.painter?.dispose();
    this.frame.remove();
  }

  /** Pixels of the photograph for one of the screen's. */
  private get perPx(): number {
    return (this.state?.photo.px[0] ?? 1) / Math.max(1, this.frame.clientWidth);
  }

  /** Fit the photograph into the host, and draw it there once. */
  private layOut(): void {
    const { state, host, frame, picture } = this;
    // A photograph that was let go of has no size, and nothing is drawn of it.
    if (state === undefined || state.photo.image.width === 0) return;
    const [width, height] = state.photo.px;
    const scale = Math.min(host.clientWidth / width, host.clientHeight / height);
    const [wide, high] = [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
    const ratio = drawnRatio();
    const now = `${wide} ${high} ${host.clientWidth} ${host.clientHeight} ${ratio}`;
    if (now === this.sized) return;
    this.sized = now;
    frame.style.inlineSize = `${wide}px`;
    frame.style.blockSize = `${high}px`;
    frame.style.left = `${(host.clientWidth - wide) / 2}px`;
    frame.style.top = `${(host.clientHeight - high) / 2}px`;
    picture.width = Math.round(wide * ratio);
    picture.height = Math.round(high * ratio);
    const context = picture.getContext("2d");
    if (context !== null) {
      context.imageSmoothingQuality = "high";
      context.drawImage(state.photo.image, 0, 0, picture.width, picture.height);
    }
    this.lines.setPhoto(state.photo.px);
    this.painter?.setSize(wide * ratio, high * ratio);
    this.placeHandles(state);
  }

  private paintMask(strokes: PhotoState["strokes"]): void {
    const { state } = this;
    if (state === undefined) return;
    if (strokes.length > 0 || this.mask !== undefined) {
      this.mask ??= maskCanvas(state.photo.px);
      drawStrokes(this.mask, strokes, state.photo.px[0]);
      this.painted += 1;
    }
    this.paint();
  }

  private paint(): void {
    const { state, mask } = this;
    // A piece over the paper would hide the corners that are being marked.
    if (state?.wall === undefined || state.pieces.length === 0 || state.tool === "corners") {
      this.painter?.paint(undefined);
      return;
    }
    this.painter?.paint({
      pieces: state.pieces,
      camera: state.wall.camera,
      photo: state.photo.px,
      at: state.at,
      light: state.wall.light,
      look: state.look,
      ...(mask === undefined ? {} : { inFront: mask }),
      strokes: this.painted,
    });
  }

  private placeHandles(state: PhotoState): void {
    const { tool, wall, references, edges, words } = state;
    const shown = new Set<string>();
    const show = (id: string, label: string, [x, y]: Point, make: (handle: HTMLButtonElement) => void): void => {
      shown.add(id);
      let handle = this.handles.get(id);
      if (handle === undefined) {
        handle = roundHandle(id);
        make(handle);
        this.handles.set(id, handle);
        this.frame.append(handle);
      }
      handle.setAttribute("aria-label", label);
      handle.style.left = `${x / this.perPx}px`;
      handle.style.top = `${y / this.perPx}px`;
    };
    if (tool === "corners") {
      for (const [reference, corners] of references.entries()) {
        for (const [corner, at] of corners.entries()) {
          show(`corner-${reference}-${corner}`, words.corner(reference, corner), at, (handle) =>
            this.followCorner(handle, reference, corner),
          );
        }
      }
    }
    if (tool === "edges" && wall !== undefined) {
      for (const { kind, atMm } of edges) {
        const at = seenAt(wall.camera, isLevel(kind) ? [state.at[0], atMm, 0] : [atMm, state.at[1], 0]);
        show(`edge-${kind}`, words.edge(kind), at, (handle) => this.followEdge(handle, kind));
      }
    }
    for (const [id, handle] of this.handles) {
      if (shown.has(id)) continue;
      handle.remove();
      this.handles.delete(id);
    }
    this.lines.showReferences(tool === "corners" ? references : []);
    this.lines.showEdges(tool === "brush" ? [] : edges, wall?.camera);
    this.brush.element.hidden = tool !== "brush";
    this.placePiece(state);
  }

  private placePiece({ tool, wall, pieces, at, words }: PhotoState): void {
    const { piece, perPx } = this;
    piece.hidden = tool !== "piece" || wall === undefined || pieces.length === 0;
    if (piece.hidden || wall === undefined) return;
    const outline = frontOutline(wall.camera, at, hungSize(pieces));
    const [xs, ys] = [outline.map(([x]) => x / perPx), outline.map(([, y]) => y / perPx)];
    const [left, top] = [Math.min(...xs), Math.min(...ys)];
    piece.style.left = `${left}px`;
    piece.style.top = `${top}px`;
    piece.style.inlineSize = `${Math.max(24, Math.max(...xs) - left)}px`;
    piece.style.blockSize = `${Math.max(24, Math.max(...ys) - top)}px`;
    piece.setAttribute("aria-label", words.piece);
  }

  private followPiece(): void {
    const depth = (): number => Math.max(0, ...(this.state?.pieces.map(({ sizes }) => sizes.depthMm) ?? []));
    movable(this.piece, () => this.perPx, {
      from: () => {
        const { state } = this;
        return state?.wall === undefined ? [0, 0] : seenAt(state.wall.camera, [...state.at, depth()]);
      },
      to: (place, done) => {
        const camera = this.state?.wall?.camera;
        if (camera !== undefined) this.hands.movePiece(placeAt(camera, place, depth()), done);
      },
      step: ([right, up]) => {
        const at = this.state?.at;
        if (at !== undefined) this.hands.movePiece([at[0] + right, at[1] + up], true);
      },
    });
  }

  private followCorner(handle: HTMLButtonElement, reference: number, corner: number): void {
    const from = (): Point => this.state?.references[reference]?.[corner] ?? [0, 0];
    const magnify = (): void => {
      const { state, frame } = this;
      if (state === undefined || state.photo.image.width === 0) return;
      this.magnifier.show(state.photo.image, from(), state.photo.px, [frame.clientWidth, frame.clientHeight]);
    };
    const move = (to: Point, done: boolean): void => {
      const [width, height] = this.state?.photo.px ?? [0, 0];
      const inside: Point = [Math.min(width, Math.max(0, to[0])), Math.min(height, Math.max(0, to[1]))];
      this.hands.moveCorner(reference, corner, inside, done);
      magnify();
    };
    movable(handle, () => this.perPx, {
      from,
      to: move,
      step: ([right, up]) => move([from()[0] + right, from()[1] - up], true),
      held: (held) => (held ? magnify() : this.magnifier.hide()),
    });
  }

  private followEdge(handle: HTMLButtonElement, kind: EdgeKind): void {
    const along = isLevel(kind) ? 1 : 0;
    const edge = (): number => this.state?.edges.find((one) => one.kind === kind)?.atMm ?? 0;
    movable(handle, () => this.perPx, {
      from: () => {
        const { state } = this;
        if (state?.wall === undefined) return [0, 0];
        return seenAt(state.wall.camera, along === 1 ? [state.at[0], edge(), 0] : [edge(), state.at[1], 0]);
      },
      to: (place, done) => {
        const camera = this.state?.wall?.camera;
        if (camera !== undefined) this.hands.moveEdge(kind, placeAt(camera, place, 0)[along], done);
      },
      step: (steps) => this.hands.moveEdge(kind, edge() + steps[along], true),
    });
  }
}
