// The settings of a side fill, and the notice that a continued side is made up.
import type { Fill, Job } from "../../../contract/types";
import { lengthShown } from "../../../units";
import { LengthSlider } from "../../controls/slider";
import { unit } from "../../state/page/settings";
import { job } from "../../state/work/work";
import { SideColour } from "./side_colour";

interface FillDetailsProps {
  /** `sides`, or one side's own name below it. */
  readonly field: string;
  readonly fill: {
    readonly fill: Fill;
    readonly blur_mm: number;
    readonly band_mm: number;
    readonly colour: string;
  };
  readonly set: (part: { blur_mm: number } | { band_mm: number } | { colour: string }) => (job: Job) => Job;
}

export function FillDetails({ field, fill, set }: FillDetailsProps) {
  const depth = job.value?.bars.depth_mm ?? 0;
  const mirrored = fill.fill === "mirror" || fill.fill === "fade";
  const coloured = fill.fill === "plain" || fill.fill === "fade";
  const banded = fill.fill === "drawn-out" || (coloured && fill.colour === "edge");
  return (
    <>
      {mirrored && (
        <LengthSlider
          field={`${field}.blur_mm`}
          label="Blur towards the wall"
          value={fill.blur_mm}
          set={(blur_mm) => set({ blur_mm })}
          from={0}
          to={20}
          by={0.5}
          consequence={
            fill.blur_mm === 0
              ? "Sharp all the way to the wall."
              : `Sharp at the front edge, blurred by ${lengthShown(fill.blur_mm, unit.value)} at the back edge, ${lengthShown(depth, unit.value)} further.`
          }
        />
      )}
      {fill.fill === "continued" && <ContinuedSide />}
      {coloured && <SideColour field={`${field}.colour`} colour={fill.colour} set={(colour) => set({ colour })} />}
      {banded && (
        <LengthSlider
          field={`${field}.band_mm`}
          label="Band"
          value={fill.band_mm}
          set={(band_mm) => set({ band_mm })}
          from={0}
          to={20}
          by={0.5}
          consequence={`Colours are averaged over ${lengthShown(fill.band_mm, unit.value)} beside the front edge.`}
        />
      )}
    </>
  );
}

function ContinuedSide() {
  return (
    <p class="consequence">
      Made up: the lines that run into the front edge go on, in colours of the strip beside it. Nobody photographed or
      painted this; tell your client.
    </p>
  );
}
