// One picture across several panels: their number, gap and direction, and the picture behind the gaps.
import type { Job, Layout } from "../../../contract/types";
import { Choice } from "../../controls/choice";
import { LengthField } from "../../controls/fields";
import { regroup, setGroup } from "../../state/work/edit";
import { behindGaps, onTheWall } from "../../state/layout/panels";
import { ACROSS_GAP, HUNG } from "../../state/page/names";
import { unit } from "../../state/page/settings";
import { say } from "../../../speech/on_page";

const PANELS = ["1", "2", "3", "4", "5"].map((value) => ({
  value,
  word: value === "1" ? say("One") : value,
  meaning: value === "1" ? "" : say("each of the size of the face, with its own sides and its own print file"),
}));

interface GroupOfPanelsProps {
  readonly now: Job;
  readonly layout: Layout;
}

export function GroupOfPanels({ now, layout }: GroupOfPanelsProps) {
  const { group } = now;
  const several = group.panels > 1;
  return (
    <div class="sub-part" id="group">
      <Choice
        field="group.panels"
        label={say("Panels")}
        value={String(group.panels)}
        options={PANELS}
        set={(panels) => regroup({ panels: Number(panels) })}
        consequence={onTheWall(layout, now, unit.value)}
      />
      {several && (
        <>
          <LengthField
            field="group.gap_mm"
            label={say("Gap between panels")}
            value={group.gap_mm}
            set={(gap_mm) => setGroup({ gap_mm })}
            consequence={behindGaps(now, unit.value)}
          />
          <Choice
            field="group.hung"
            label={say("How they hang")}
            value={group.hung}
            options={HUNG}
            set={(hung) => regroup({ hung })}
          />
          <Choice
            field="group.across_gap"
            label={say("Picture across the gap")}
            value={group.across_gap}
            options={ACROSS_GAP}
            set={(across_gap) => setGroup({ across_gap })}
          />
        </>
      )}
    </div>
  );
}
