// The crop, moved and scaled on the picture's small copy by drag, wheel or keys.
import { JobControls } from "../../controls/job_controls";
import { pressable } from "../../controls/pressable";
import { useEffect, useRef } from "preact/hooks";
import { CropText } from "./crop_text";
import { FieldErrorText } from "../../controls/labelled_field";
import { usePendingValue } from "../../controls/pending_value";
import {
  type Corner,
  CORNERS,
  cropOf,
  cropSize,
  drawCorner,
  keyedCrop,
  largestCrop,
  leftToBrowser,
  moveCrop,
  scaleCrop,
} from "../../state/layout/crop";
import { fieldId } from "../../state/page/fields";
import { job, picture, shown } from "../../state/work/work";
import type { Crop, Job } from "../../../contract/types";
import { cropGesture, offerCrop } from "../../state/work/crop_edit";
import { isFixed } from "../../state/work/fixed";
import { say } from "../../../speech/on_page";

export function CropEditor() {
  const open = picture.value;
  const turn = job.value?.picture.turn ?? 0;
  const use = shown.value?.layout.use;
  const pending = usePendingValue<Crop>();
  const frame = useRef<HTMLDivElement>(null);
  if (open === undefined || use === undefined) return null;
  const crop = pending.value ?? cropOf(use.crop);
  const fixed = isFixed("picture.crop");
  const offer = (next: Crop | undefined): void => {
    if (fixed) return;
    const shape = crop.width / crop.height;
    pending.showUntil(next ?? largestCrop(shape), offerCrop(next));
  };
  return (
    <div class="field" data-field="picture.crop">
      <div
        class="crop"
        ref={frame}
        onClick={(event) => {
          // A press beside the window brings its middle there, for people who cannot drag.
          if (!(event.target instanceof HTMLCanvasElement) || frame.current === null) return;
          const { left, top, width, height } = frame.current.getBoundingClientRect();
          const [x, y] = [(event.clientX - left) / width, (event.clientY - top) / height];
          offer(moveCrop(crop, x - crop.x - crop.width / 2, y - crop.y - crop.height / 2));
        }}
      >
        <Thumbnail image={open.thumbnail} turn={turn} />
        <div
          class="crop-window"
          id={fieldId("picture.crop")}
          role="application"
          tabIndex={fixed ? undefined : 0}
          aria-disabled={fixed}
          aria-label={say("Crop: {cropSize} percent of the largest crop", {
            cropSize: Math.round(cropSize(crop) * 100),
          })}
          aria-describedby={fixed ? "read-only" : "crop-leaves-out crop-keys"}
          style={{
            left: percent(crop.x),
            top: percent(crop.y),
            width: percent(crop.width),
            height: percent(crop.height),
            touchAction: leftToBrowser(crop),
          }}
          onKeyDown={(event) => {
            const next = keyedCrop(crop, event);
            if (next === "ignored") return;
            event.preventDefault();
            offer(next);
          }}
          onPointerDown={(event) => drag(event, frame.current, (across, down) => offer(moveCrop(crop, across, down)))}
        >
          {!fixed &&
            CORNERS.map((corner) => (
              <span
                key={corner}
                class={`crop-corner crop-${corner}`}
                onPointerDown={(event) => dragCorner(event, frame.current, crop, corner, offer)}
              />
            ))}
        </div>
      </div>
      {!fixed && (
        <p class="aside" id="crop-keys">
          {say(
            "Drag the crop or its corners, or press beside it. With keys: arrows move it (Shift: further), + and − scale it, 0 takes the whole width or height.",
          )}
        </p>
      )}
      <div class="row">
        <JobControls>
          <label class="field-label" for="crop-size">
            {say("Crop")}
          </label>
          <input
            id="crop-size"
            type="range"
            class="slider"
            min={10}
            max={100}
            step={1}
            value={Math.round(cropSize(crop) * 100)}
            style={{ "--share": (cropSize(crop) - 0.1) / 0.9 }}
            aria-valuetext={say("{cropSize} percent of the largest", { cropSize: Math.round(cropSize(crop) * 100) })}
            onPointerDown={() => cropGesture.press()}
            onPointerUp={() => cropGesture.release()}
            onInput={(event) => offer(scaleCrop(crop, event.currentTarget.valueAsNumber / 100 / cropSize(crop)))}
          />
          <button
            type="button"
            class="button"
            {...pressable(job.value?.picture.crop !== undefined, () => offer(undefined))}
          >
            {say("Whole width or height")}
          </button>
        </JobControls>
      </div>
      <CropText crop={cropOf(use.crop)} />
      <FieldErrorText field="picture.crop" />
    </div>
  );
}

function percent(share: number): string {
  return `${share * 100}%`;
}

/** Follow the pointer; moves are given as fractions of the frame, from where it went down. */
function drag(event: PointerEvent, frame: HTMLElement | null, move: (across: number, down: number) => void): void {
  const target = event.currentTarget;
  if (!(target instanceof HTMLElement) || frame === null || event.button !== 0) return;
  const { width, height } = frame.getBoundingClientRect();
  const from = { x: event.clientX, y: event.clientY };
  cropGesture.press();
  target.setPointerCapture(event.pointerId);
  const follow = (now: PointerEvent): void => move((now.clientX - from.x) / width, (now.clientY - from.y) / height);
  const end = (): void => {
    cropGesture.release();
    target.removeEventListener("pointermove", follow);
  };
  target.addEventListener("pointermove", follow);
  target.addEventListener("pointerup", end, { once: true });
  target.addEventListener("pointercancel", end, { once: true });
}

function dragCorner(
  event: PointerEvent,
  frame: HTMLElement | null,
  crop: Crop,
  corner: Corner,
  offer: (next: Crop) => void,
): void {
  event.stopPropagation();
  const right = corner.endsWith("right");
  const low = corner.startsWith("bottom");
  drag(event, frame, (across, down) =>
    offer(
      drawCorner(crop, corner, {
        x: crop.x + (right ? crop.width : 0) + across,
        y: crop.y + (low ? crop.height : 0) + down,
      }),
    ),
  );
}

/** The picture's small copy, turned as the job turns it. */
function Thumbnail({ image, turn }: { readonly image: ImageData; readonly turn: Job["picture"]["turn"] }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const sideways = turn === 90 || turn === 270;
  const [width, height] = sideways ? [image.height, image.width] : [image.width, image.height];
  useEffect(() => {
    const pen = canvas.current?.getContext("2d");
    if (!pen) return;
    const upright = new OffscreenCanvas(image.width, image.height);
    upright.getContext("2d")?.putImageData(image, 0, 0);
    pen.setTransform(1, 0, 0, 1, 0, 0);
    pen.translate(width / 2, height / 2);
    pen.rotate((turn * Math.PI) / 180);
    pen.drawImage(upright, -image.width / 2, -image.height / 2);
  }, [image, turn, width, height]);
  return (
    <canvas
      ref={canvas}
      class="crop-picture"
      width={width}
      height={height}
      role="img"
      aria-label={say("The whole picture")}
    />
  );
}
