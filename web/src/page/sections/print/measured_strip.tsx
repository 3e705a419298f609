// A measured strip against the profile's promise: mean, worst, and the worst patches.
import type { StripCheck } from "../../../contract/types";
import { deShown, labShown } from "../../state/colour/words";

/** So many of the worst patches are listed. */
const LISTED = 8;

export function MeasuredStrip({ check, file }: { readonly check: StripCheck; readonly file: string }) {
  return (
    <div class="report" id="strip-check">
      <p>
        <strong>{file}</strong>: the print is off the profile's promise by {deShown(check.mean_de)} on average over{" "}
        {check.patches.length} patches and by {deShown(check.worst_de)} at worst; bare canvas and greys by{" "}
        {deShown(check.greys_mean_de)}.
      </p>
      {check.doubtful && (
        <p class="consequence consequence-bad">They differ so much that the values may be another strip's.</p>
      )}
      <table class="figures">
        <caption class="visually-hidden">The patches that are off by most</caption>
        <thead>
          <tr>
            <th scope="col">Patch</th>
            <th scope="col">Promised L*a*b*</th>
            <th scope="col">Measured</th>
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
                <strong>{one.de.toFixed(1)}</strong>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
