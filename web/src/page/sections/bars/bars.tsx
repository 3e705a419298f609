// The bars section: the face, the bars, and how the canvas goes round them.
import { JobControls } from "../../controls/job_controls";
import { Choice } from "../../controls/choice";
import { LengthField } from "../../controls/fields";
import { UnitChoice } from "../../controls/unit_choice";
import { More } from "../../controls/section";
import { Consequence } from "../../controls/labelled_field";
import { LengthSlider } from "../../controls/slider";
import { finishesQuery } from "../../state/choices/choices";
import { bulky, deepestBar, faceSize, widestTurnover } from "../../state/layout/consequences";
import { setBars, setFace, setWrap, swapFace } from "../../state/work/edit";
import { capitalised } from "../../state/page/fields";
import { CORNERS, OVER_PAIRS } from "../../state/page/names";
import { propose } from "../../state/work/run";
import { unit } from "../../state/page/settings";
import { lengthShown } from "../../../units";
import { job, lacksPicture, shown } from "../../state/work/work";
import { FinishChoice } from "./finish_choice";
import { OwnSizes } from "../own_sizes";
import { LargestFace } from "./largest_face";
import { GroupOfPanels } from "./panels";
import { say } from "../../../speech/on_page";

export function BarsSection() {
  const now = job.value;
  const on = shown.value;
  if (now === undefined || on === undefined) return null;
  const { layout, bulk } = on;
  const inUnit = unit.value;
  const { wrap } = now;
  return (
    <>
      <UnitChoice id="unit" />
      <div class="pair">
        <LengthField
          field="face.width_mm"
          label={say("Face width")}
          value={now.face.width_mm}
          set={(width_mm) => setFace({ width_mm })}
        />
        <LengthField
          field="face.height_mm"
          label={say("Face height")}
          value={now.face.height_mm}
          set={(height_mm) => setFace({ height_mm })}
        />
        <JobControls>
          <button
            type="button"
            class="button swap"
            onClick={() =>
              void propose({ field: "face.width_mm", label: say("swapping width and height"), change: swapFace })
            }
          >
            {say("Swap width and height")}
          </button>
        </JobControls>
      </div>
      <Consequence text={faceSize(now, inUnit)} />
      <LargestFace now={now} />
      <LengthSlider
        field="bars.depth_mm"
        label={say("Bar depth")}
        value={now.bars.depth_mm}
        set={(depth_mm) => setBars({ depth_mm })}
        from={10}
        to={60}
        by={0.5}
        consequence={deepestBar(layout, now, inUnit)}
        practice={say("18 to 20 mm suit small pieces, about 38 mm larger ones; from memory")}
      />
      <FinishChoice label={say("Corner finish")} />
      {/* The pictures say it beside each finish. */}
      {(lacksPicture.value || finishesQuery.failure.value !== undefined) && (
        <Consequence text={capitalised(bulky(bulk, inUnit))} />
      )}
      <Choice
        field="wrap.over"
        label={say("Corners fold on to")}
        value={wrap.over}
        options={OVER_PAIRS}
        set={(over) => setWrap({ over })}
        practice={say("top and bottom")}
      />
      <LengthSlider
        field="wrap.turnover_mm"
        label={say("Turn-over on the back")}
        value={wrap.turnover_mm}
        set={(turnover_mm) => setWrap({ turnover_mm })}
        from={0}
        to={60}
        by={0.5}
        consequence={say("Canvas folded on to the back, for the staples. {widestTurnover}", {
          widestTurnover: widestTurnover(layout, now, inUnit),
        })}
      />
      <More summary={say("Bleed, corners on the back, set-back")}>
        <LengthField
          field="wrap.ink_over_mm"
          label={say("Bleed on to the back")}
          value={wrap.ink_over_mm}
          set={(ink_over_mm) => setWrap({ ink_over_mm })}
          consequence={say("The print runs {ink_over_mm} on to the back, so that no white shows at the back edge.", {
            ink_over_mm: lengthShown(wrap.ink_over_mm, inUnit),
          })}
        />
        {wrap.finish !== "trimmed" && (
          <Choice
            field="wrap.corners"
            label={say("Corners on the back")}
            value={wrap.corners}
            options={CORNERS}
            set={(corners) => setWrap({ corners })}
          />
        )}
        {wrap.finish === "tucked" && (
          <LengthField
            field="wrap.setback_mm"
            label={say("Set-back")}
            value={wrap.setback_mm}
            set={(setback_mm) => setWrap({ setback_mm })}
            consequence={say("How far the edge of the fold stands back from the corner at the wall.")}
          />
        )}
        {wrap.finish === "trimmed" && (
          <LengthField
            field="wrap.tab_mm"
            label={say("Tab")}
            value={wrap.tab_mm}
            set={(tab_mm) => setWrap({ tab_mm })}
            consequence={say(
              "What is left of the corner square under the edge of the fold; at most half the bar depth.",
            )}
          />
        )}
      </More>
      <OwnSizes kind="bars" />
      <GroupOfPanels now={now} layout={layout} />
    </>
  );
}
