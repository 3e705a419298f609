// Taking a colour from the picture's small copy: by pointer, or with the arrow keys and Enter.
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { averageColour } from "../state/colour_at";
import { picture } from "../state/work";

interface PickColourProps {
  /** The colour, or nothing where none was taken. */
  readonly done: (colour: string | undefined) => void;
}

export function PickColour({ done }: PickColourProps) {
  const image = picture.value?.thumbnail;
  const canvas = useRef<HTMLCanvasElement>(null);
  const place = useSignal({ x: 0.5, y: 0.5 });
  useEffect(() => {
    if (image) canvas.current?.getContext("2d")?.putImageData(image, 0, 0);
    canvas.current?.focus();
  }, [image]);
  if (image === undefined) return null;
  const here = averageColour(image, place.value);
  const move = (x: number, y: number): void => {
    place.value = { x: Math.min(1, Math.max(0, x)), y: Math.min(1, Math.max(0, y)) };
  };
  return (
    <div class="pick">
      <div class="pick-frame">
        <canvas
          ref={canvas}
          width={image.width}
          height={image.height}
          tabIndex={0}
          role="application"
          aria-label={`Pick a colour with the arrow keys and Enter; here it is ${here}`}
          onPointerMove={(event) => {
            const { width, height } = event.currentTarget.getBoundingClientRect();
            move(event.offsetX / width, event.offsetY / height);
          }}
          onClick={() => done(averageColour(image, place.value))}
          onKeyDown={(event) => {
            const step = event.shiftKey ? 0.05 : 0.01;
            const { x, y } = place.value;
            if (event.key === "ArrowLeft") move(x - step, y);
            else if (event.key === "ArrowRight") move(x + step, y);
            else if (event.key === "ArrowUp") move(x, y - step);
            else if (event.key === "ArrowDown") move(x, y + step);
            else if (event.key === "Enter") done(here);
            else if (event.key === "Escape") done(undefined);
            else return;
            event.preventDefault();
          }}
        />
        <span
          class="pick-place"
          style={{ left: `${place.value.x * 100}%`, top: `${place.value.y * 100}%`, "--swatch": here }}
        />
      </div>
      <span class="aside">{here}: press to take it, Escape to leave it.</span>
    </div>
  );
}
