// How to print the file so that it comes out at its size and in its colours.
import type { Job, Layout } from "../../../contract/types";
import { Practice } from "../../controls/labelled_field";
import { loaded, measuredOnPrint } from "../../state/layout/consequences";
import { unit } from "../../state/page/settings";
import { say } from "../../../speech/on_page";

export function PrintingSteps({ job, layout }: { readonly job: Job; readonly layout: Layout }) {
  const turned = layout.plan?.turned ?? layout.sheet.turned;
  const converts = job.print.convert === "convert";
  return (
    <div class="part" id="printing-steps">
      <h3 class="minor">{say("How to print it")}</h3>
      <ul class="steps">
        <li>{say("Print at 100 percent (“actual size”), with no scaling and no fitting to the page.")}</li>
        <li>
          {converts
            ? say("Switch colour management off in the printing program and in the driver: the file is converted.")
            : say("Convert the colours once: either in the printing program or in the driver, not in both.")}
        </li>
        {loaded(job) === "sheet" && (
          <li>
            {turned
              ? say("Load the sheet sideways: the canvas fits turned sideways.")
              : say("Load the sheet upright, as it is drawn on the page.")}
          </li>
        )}
        <li>
          {say(
            "Choose the paper setting of your canvas; a matte fine-art setting is a common stop-gap where the printer has none for canvas.",
          )}
          <Practice />
        </li>
        <li>{measuredOnPrint(layout, job, unit.value)}</li>
      </ul>
    </div>
  );
}
