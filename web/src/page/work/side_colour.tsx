// The colour of a plain side: the arris's own mean, a named one, one from the picture, or any other.
import { useSignal } from "@preact/signals";
import type { Job } from "../../contract/types";
import { Entry } from "../controls/entry";
import { Shell } from "../controls/shell";
import { NAMED_COLOURS } from "../state/names";
import { propose } from "../state/run";
import { PickColour } from "./pick_colour";

interface SideColourProps {
  readonly field: string;
  readonly colour: string;
  readonly set: (colour: string) => (job: Job) => Job;
}

export function SideColour({ field, colour, set }: SideColourProps) {
  const picking = useSignal(false);
  const choose = (value: string): void => void propose({ field, label: "side colour", change: set(value) });
  const consequence =
    colour === "arris" ? "The mean colour of the band beside the arris." : `One colour, ${colour}, as sRGB.`;
  return (
    <Shell field={field} label="Colour" consequence={consequence}>
      <span class="swatches">
        <button type="button" class="button" aria-pressed={colour === "arris"} onClick={() => choose("arris")}>
          As the arris
        </button>
        <button
          type="button"
          class="button"
          aria-pressed={picking.value}
          onClick={() => (picking.value = !picking.value)}
        >
          From the picture
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
    </Shell>
  );
}
