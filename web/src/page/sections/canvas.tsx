// The canvas: its thickness and weight, and how much it gives when it is pulled tight.
import { LengthField, NumberField } from "../controls/fields";
import { Consequence } from "../controls/labelled_field";
import { massShown } from "../state/layout/ordering";
import { stretched, takeUp } from "../state/layout/consequences";
import { setCanvas, setStretch } from "../state/work/edit";
import { unit } from "../state/page/settings";
import { job, shown } from "../state/work/work";
import { say } from "../../speech/on_page";

export function CanvasSection() {
  const now = job.value;
  const on = shown.value;
  if (now === undefined || on === undefined) return null;
  const { layout } = on;
  const { canvas } = now;
  const [across, down] = canvas.stretch_percent;
  return (
    <>
      <div class="pair">
        <LengthField
          field="canvas.thickness_mm"
          label={say("Thickness")}
          value={canvas.thickness_mm}
          set={(thickness_mm) => setCanvas({ thickness_mm })}
        />
        <NumberField
          field="canvas.weight_gsm"
          label={say("Weight")}
          value={canvas.weight_gsm}
          set={(weight_gsm) => setCanvas({ weight_gsm })}
          unit={say("g/m²")}
          by={5}
        />
      </div>
      <Consequence text={takeUp(now, unit.value)} />
      <Consequence
        text={say("As trimmed, {weight_g} g, the canvas alone; the whole piece weighs {whole_g}.", {
          weight_g: Math.round(on.bars.canvas_alone_g),
          whole_g: massShown(on.bars.whole_g),
        })}
      />
      <div class="pair">
        <NumberField
          field="canvas.stretch_percent.0"
          label={say("How much the canvas gives across")}
          value={across}
          set={(percent) => setStretch(0, percent)}
          unit="%"
          by={0.1}
        />
        <NumberField
          field="canvas.stretch_percent.1"
          label={say("How much the canvas gives down")}
          value={down}
          set={(percent) => setStretch(1, percent)}
          unit="%"
          by={0.1}
        />
      </div>
      <Consequence
        text={say("{stretched} Measure it by stretching a ruled strip; see the guide.", {
          stretched: stretched(layout, now, unit.value),
        })}
      />
    </>
  );
}
