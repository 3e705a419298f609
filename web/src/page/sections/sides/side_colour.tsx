// The colour of a plain side: the edge's mean, a named colour, one picked from the picture, or any other.
import { JobControls } from "../../controls/job_controls";
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Job } from "../../../contract/types";
import { Entry } from "../../controls/entry";
import { LabelledField } from "../../controls/labelled_field";
import { averageColour } from "../../state/colour/pixels";
import { NAMED_COLOURS } from "../../state/page/names";
import { propose } from "../../state/work/run";
import { picture } from "../../state/work/work";
import { say } from "../../../speech/on_page";

interface SideColourProps {
  readonly field: string;
  readonly colour: string;
  readonly set: (colour: string) => (job: Job) => Job;
}

export function SideColour({ field, colour, set }: SideColourProps) {
  const picking = useSignal(false);
  const choose = (value: string): void => void propose({ field, label: say("side colour"), change: set(value) });
  const consequence =
    colour === "edge"
      ? say("The mean colour of the band beside the front edge.")
      : say("One colour, {colour}, as sRGB.", { colour });
  return (
    <LabelledField field={field} label={say("Colour")} consequence={consequence}>
      <JobControls>
        <span class="swatches">
          <button type="button" class="button" aria-pressed={colour === "edge"} onClick={() => choose("edge")}>
            {say("As the edge")}
          </button>
          <button
            type="button"
            class="button"
            aria-pressed={picking.value}
            onClick={() => (picking.value = !picking.value)}
          >
            {say("From the picture")}
          </button>
          {NAMED_COLOURS.map(({ name, hex }) => (
            <button
              key={hex}
              type="button"
              class="swatch"
              style={{ "--swatch": hex }}
              aria-label={`${name}, ${hex}`}
              title={name}
              aria-pressed={colour === hex}
              onClick={() => choose(hex)}
            />
          ))}
        </span>
      </JobControls>
      <Entry
        field={field}
        value={colour}
        text={(value) => value}
        parse={(typed) => ({ ok: true, value: typed.trim().toLowerCase() })}
        commit={choose}
      />
      {picking.value && (
        <PickColour
          done={(picked) => {
            picking.value = false;
            if (picked !== undefined) choose(picked);
          }}
        />
      )}
    </LabelledField>
  );
}

interface PickColourProps {
  /** Called with the colour, or with nothing where none was picked. */
  readonly done: (colour: string | undefined) => void;
}

function PickColour({ done }: PickColourProps) {
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
          aria-label={say("Pick a colour with the arrow keys and Enter; here it is {here}", { here })}
          onPointerMove={(event) => {
            const { width, height } = event.currentTarget.getBoundingClientRect();
            move(event.offsetX / width, event.offsetY / height);
          }}
          onClick={() => done(averageColour(image, place.value))}
          onKeyDown={(event) => {
            if (event.ctrlKey || event.metaKey || event.altKey) return;
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
      <span class="aside">{say("{here}: press to take it, Escape to cancel.", { here })}</span>
    </div>
  );
}
