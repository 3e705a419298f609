// How to print the file so that it comes out at its size and in its colours.
import type { Job } from "../../../contract/types";
import { Practice } from "../../controls/labelled_field";
import { loaded } from "../../state/layout/consequences";

export function PrintingSteps({ job, turned }: { readonly job: Job; readonly turned: boolean }) {
  const converts = job.print.convert === "convert";
  return (
    <div class="part" id="printing-steps">
      <h3 class="minor">How to print it</h3>
      <ul class="steps">
        <li>Print at 100 percent (“actual size”), with no scaling and no fitting to the page.</li>
        <li>
          {converts
            ? "Switch colour management off in the printing program and in the driver: the file is converted."
            : "Convert the colours once: either in the printing program or in the driver, not in both."}
        </li>
        {loaded(job) === "sheet" && (
          <li>
            {turned
              ? "Load the sheet sideways: the canvas fits turned sideways."
              : "Load the sheet upright, as it is drawn on the page."}
          </li>
        )}
        <li>
          Choose the paper setting of your canvas; a matte fine-art setting is a common stop-gap where the printer has
          none for canvas.
          <Practice />
        </li>
      </ul>
    </div>
  );
}
