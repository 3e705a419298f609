// Moving and scaling the picture under the canvas on the sheet: by drag, wheel, pinch, handle or keys.
import { useRef } from "preact/hooks";
import type { Crop, Job, Layout } from "../../contract/types";
import { usePendingValue } from "../controls/pending_value";
import { picturedSpan } from "../state/layout/panels";
import { cropOf, cropStep, keyedCrop, moveCrop, scaleCrop } from "../state/layout/crop";
import { cropGesture, offerCrop } from "../state/work/crop_edit";
import { FaceCorners } from "./face_corners";
import type { Placing } from "./placing";
import { say } from "../../speech/on_page";

interface CropHandlesProps {
  readonly placing: Placing;
  readonly layout: Layout;
  readonly job: Job;
  /** The picture lies under all canvases alike: the keys need one of them. */
  readonly first: boolean;
}

interface Pointer {
  x: number;
  y: number;
}

/** The state at the start of a drag: every move is reckoned from it, so that errors do not add up. */
interface Grip {
  crop: Crop;
  middle: Pointer;
  apart: number;
}

export function CropHandles({ placing, layout, job, first }: CropHandlesProps) {
  const pending = usePendingValue<Crop>();
  const pointers = useRef(new Map<number, Pointer>());
  const grip = useRef<Grip | undefined>(undefined);
  const { use } = layout;
  if (use === undefined) return null;
  const crop = pending.value ?? cropOf(use.crop);
  const offer = (next: Crop | undefined): void => {
    const settled = offerCrop(next);
    if (next !== undefined) pending.showUntil(next, settled);
  };
  // The crop spans the face zones, and the sides on which it runs on too: as many mm as its share of the picture says.
  const faces = picturedSpan(layout, job);
  const spans = {
    width: (faces.width * use.crop[2]) / use.face_crop[2],
    height: (faces.height * use.crop[3]) / use.face_crop[3],
  };
  const take = (): void => {
    const points = [...pointers.current.values()];
    grip.current = points.length === 0 ? undefined : { crop, ...spread(points) };
  };
  const follow = (): void => {
    const begun = grip.current;
    if (begun === undefined) return;
    const { middle, apart } = spread([...pointers.current.values()]);
    const dragged = placing.step(middle.x - begun.middle.x, middle.y - begun.middle.y);
    const { across, down } = cropStep(begun.crop, dragged, spans);
    const moved = moveCrop(begun.crop, across, down);
    offer(begun.apart > 0 && apart > 0 ? scaleCrop(moved, begun.apart / apart) : moved);
  };
  const release = (event: PointerEvent): void => {
    pointers.current.delete(event.pointerId);
    take();
    if (pointers.current.size === 0) cropGesture.release();
  };
  const { canvas } = placing;
  return (
    <div
      class="crop-area"
      {...(first && {
        id: "sheet-crop",
        tabIndex: 0,
        role: "application",
        "aria-label": say(
          "The picture under the canvas: arrows move it, + and − scale it, 0 takes the whole width or height",
        ),
      })}
      style={{ left: `${canvas.x}px`, top: `${canvas.y}px`, width: `${canvas.width}px`, height: `${canvas.height}px` }}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        if (pointers.current.size === 0) cropGesture.press();
        event.currentTarget.setPointerCapture(event.pointerId);
        pointers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
        take();
      }}
      onPointerMove={(event) => {
        if (!pointers.current.has(event.pointerId)) return;
        pointers.current.set(event.pointerId, { x: event.clientX, y: event.clientY });
        follow();
      }}
      onPointerUp={release}
      onPointerCancel={release}
      onWheel={(event) => {
        event.preventDefault();
        offer(scaleCrop(crop, Math.exp(event.deltaY * 0.001)));
      }}
      onKeyDown={(event) => {
        const next = keyedCrop(crop, {
          key: seenKey(event.key, placing.turned),
          shiftKey: event.shiftKey,
          ctrlKey: event.ctrlKey,
          metaKey: event.metaKey,
          altKey: event.altKey,
        });
        if (next === "ignored") return;
        event.preventDefault();
        offer(next);
      }}
    >
      <FaceCorners placing={placing} layout={layout} crop={crop} offer={offer} />
    </div>
  );
}

/** The middle of the pointers, and how far two of them are apart. */
function spread(points: readonly Pointer[]): { middle: Pointer; apart: number } {
  const [first = { x: 0, y: 0 }, second] = points;
  if (second === undefined) return { middle: first, apart: 0 };
  return {
    middle: { x: (first.x + second.x) / 2, y: (first.y + second.y) / 2 },
    apart: Math.hypot(first.x - second.x, first.y - second.y),
  };
}

const OPPOSITE: Record<string, string> = {
  ArrowLeft: "ArrowRight",
  ArrowRight: "ArrowLeft",
  ArrowUp: "ArrowDown",
  ArrowDown: "ArrowUp",
};
/** On a canvas turned clockwise, its own right is the drawing's down. */
const TURNED: Record<string, string> = {
  ArrowLeft: "ArrowUp",
  ArrowRight: "ArrowDown",
  ArrowUp: "ArrowRight",
  ArrowDown: "ArrowLeft",
};

/** The picture follows the arrow as it is seen, so the window on it goes the other way. */
function seenKey(key: string, turned: boolean): string {
  const along = turned ? (Object.keys(TURNED).find((own) => TURNED[own] === key) ?? key) : key;
  return OPPOSITE[along] ?? along;
}
