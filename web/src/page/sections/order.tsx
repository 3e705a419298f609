// What to order and what it weighs: bars, braces, staples, the weight part by part, hooks, rings and wire.
import { JobControls } from "../controls/job_controls";
import { LengthField } from "../controls/fields";
import { LabelledField } from "../controls/labelled_field";
import { hangingRows, type OrderRow, orderRows, weightRows } from "../state/layout/ordering";
import { fieldId } from "../state/page/fields";
import { WOODS } from "../state/page/names";
import { unit } from "../state/page/settings";
import { setBars, setCanvas } from "../state/work/edit";
import { propose } from "../state/work/run";
import { job, shown } from "../state/work/work";
import { say } from "../../speech/on_page";

export function Order() {
  const now = job.value;
  const report = shown.value?.bars;
  if (now === undefined || report === undefined) return null;
  const each = report.panels > 1 ? say(", each panel") : "";
  const { hanging } = report;
  return (
    <>
      <h3 class="minor">{say("To order")}</h3>
      <OrderTable id="order-bars" caption={say("Bars, braces and staples")} rows={orderRows(report, unit.value)} />
      <div class="pair">
        <LengthField
          field="bars.width_mm"
          label={say("Bar width")}
          value={report.section_mm[0]}
          set={(width_mm) => setBars({ width_mm })}
        />
        <WoodChoice />
      </div>
      <div class="field" data-field="canvas.coated">
        <JobControls>
          <label class="tick">
            <input
              type="checkbox"
              id={fieldId("canvas.coated")}
              checked={now.canvas.coated}
              onChange={(event) =>
                void propose({
                  field: "canvas.coated",
                  label: say("coating"),
                  change: setCanvas({ coated: event.currentTarget.checked }),
                })
              }
            />
            <span>{say("The print is coated")}</span>
          </label>
        </JobControls>
      </div>
      <h3 class="minor">{say("Weight")}</h3>
      <OrderTable id="order-weight" caption={say("Weight, part by part")} rows={weightRows(report, unit.value)} />
      <h3 class="minor">{say("To hang it{each}", { each })}</h3>
      <OrderTable
        id="order-hanging"
        caption={say("Hooks, rings and wire")}
        rows={hangingRows(hanging, unit.value, report.pitch_mm)}
      />
      <p class="aside">
        {say(
          "Each is rated for {safety_factor} times the force on it (common practice), from the heaviest that the piece may be. {cautions}",
          { safety_factor: hanging.safety_factor, cautions: report.cautions.join(" ") },
        )}
      </p>
    </>
  );
}

function WoodChoice() {
  const field = "bars.wood";
  const wood = job.value?.bars.wood;
  return (
    <LabelledField field={field} label={say("Wood")}>
      <JobControls>
        <select
          id={fieldId(field)}
          value={wood}
          onChange={(event) => {
            const chosen = WOODS.find(({ value }) => value === event.currentTarget.value);
            if (chosen)
              void propose({ field, label: say("wood of the bars"), change: setBars({ wood: chosen.value }) });
          }}
        >
          {WOODS.map(({ value, word }) => (
            <option key={value} value={value}>
              {word}
            </option>
          ))}
        </select>
      </JobControls>
    </LabelledField>
  );
}

interface OrderTableProps {
  readonly id: string;
  readonly caption: string;
  readonly rows: readonly OrderRow[];
}

function OrderTable({ id, caption, rows }: OrderTableProps) {
  return (
    <table class="figures order" id={id}>
      <caption class="visually-hidden">{caption}</caption>
      <tbody>
        {rows.map(({ name, head, text, remark }) => (
          <tr key={name} data-row={name}>
            <th scope="row">
              {head}
              {remark !== undefined && <span class="order-remark">{remark}</span>}
            </th>
            <td>{text}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
