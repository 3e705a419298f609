// The sides section: what the four sides show, all alike or each its own.
import { JobControls } from "../../controls/job_controls";
import type { SideFill } from "../../../contract/types";
import { Consequence } from "../../controls/labelled_field";
import { More } from "../../controls/section";
import { fillPictures } from "../../state/choices/choices";
import { pictureShares } from "../../state/layout/consequences";
import { SIDES, type SideName, setSideOwn, setSidePart, setSides } from "../../state/work/edit";
import { SIDE_WORDS } from "../../state/page/names";
import { propose } from "../../state/work/run";
import { job, shown } from "../../state/work/work";
import { FillChoice } from "./fill_choice";
import { FillDetails } from "./fill_details";
import { SideEdges } from "./side_edges";
import { lowered, say } from "../../../speech/on_page";

export function SidesSection() {
  const now = job.value;
  const layout = shown.value?.layout;
  if (now === undefined || layout === undefined) return null;
  const { sides } = now;
  const own = SIDES.filter((side) => sides[side] !== undefined);
  return (
    <>
      <FillChoice
        field="sides.fill"
        label={own.length === 0 ? say("Side fill") : say("Side fill, for sides that have none of their own")}
        where="all"
        value={sides.fill}
        set={(fill) => setSides({ fill })}
      />
      {/* The pictures say what each fill costs on all sides alike; this is what the sides as they are take. */}
      {(own.length > 0 || fillPictures.all.quick.failure.value !== undefined) && (
        <Consequence text={pictureShares(layout)} />
      )}
      <FillDetails field="sides" fill={sides} set={setSides} />
      <More
        summary={
          own.length === 0
            ? say("Give one side its own fill")
            : say("With their own fill: {own}", { own: own.map((side) => lowered(SIDE_WORDS[side])).join(", ") })
        }
      >
        {SIDES.map((side) => (
          <OneSide key={side} side={side} />
        ))}
      </More>
      <SideEdges />
    </>
  );
}

/** One side: as the others, or with a fill of its own. */
function OneSide({ side }: { readonly side: SideName }) {
  const sides = job.value?.sides;
  if (sides === undefined) return null;
  const own = sides[side];
  const label = say("{side} side", { side: SIDE_WORDS[side] });
  const { top: _t, right: _r, bottom: _b, left: _l, ...shared } = sides;
  const resolved = { ...shared, ...own };
  const set = (part: SideFill) => setSidePart(side, part);
  return (
    <div class="one-side">
      <JobControls>
        <label class="tick">
          <input
            type="checkbox"
            checked={own !== undefined}
            onChange={(event) => {
              const change = setSideOwn(side, event.currentTarget.checked);
              void propose({ field: `sides.${side}.fill`, label: say("the {side} side", { side }), change });
            }}
          />
          <span>{say("{label} differs", { label })}</span>
        </label>
      </JobControls>
      {own !== undefined && (
        <>
          <FillChoice
            field={`sides.${side}.fill`}
            label={label}
            where={side}
            value={resolved.fill}
            set={(fill) => set({ fill })}
          />
          <FillDetails field={`sides.${side}`} fill={resolved} set={set} />
        </>
      )}
    </div>
  );
}
