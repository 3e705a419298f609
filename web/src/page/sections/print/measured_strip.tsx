// A measured strip against the profile's promise: mean, worst, and the worst patches.
import type { StripCheck } from "../../../contract/types";
import { deShown, labShown } from "../../state/colour/words";
import { decimal, say, sayParts } from "../../../speech/on_page";

/** So many of the worst patches are listed. */
const LISTED = 8;

export function MeasuredStrip({ check, file }: { readonly check: StripCheck; readonly file: string }) {
  return (
    <div class="report" id="strip-check">
      <p>
        {sayParts(
          "{file}: the print is off the profile's promise by {mean_de} on average over {patchCount} patches and by {worst_de} at worst; bare canvas and greys by {greys_mean_de}.",
          {
            file: <strong>{file}</strong>,
            mean_de: deShown(check.mean_de),
            patchCount: check.patches.length,
            worst_de: deShown(check.worst_de),
            greys_mean_de: deShown(check.greys_mean_de),
          },
        )}
      </p>
      {check.doubtful && (
        <p class="consequence consequence-bad">{say("They differ so much that the values may be another strip's.")}</p>
      )}
      <table class="figures">
        <caption class="visually-hidden">{say("The patches that are off by most")}</caption>
        <thead>
          <tr>
            <th scope="col">{say("Patch")}</th>
            <th scope="col">{say("Promised L*a*b*")}</th>
            <th scope="col">{say("Measured")}</th>
            <th scope="col">ΔE00</th>
          </tr>
        </thead>
        <tbody>
          {check.patches.slice(0, LISTED).map((one) => (
            <tr key={one.id}>
              <th scope="row">
                {one.id} {one.name}
              </th>
              <td>{labShown(one.expected_lab)}</td>
              <td>{labShown(one.measured_lab)}</td>
              <td>
                <strong>{decimal(one.de.toFixed(1))}</strong>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
