// Controls that change the job, or what is kept with it.
import type { ComponentChildren } from "preact";
import { readOnly } from "../state/keeping/mode";

/**
 * Around buttons, ticks and choices that change the job and say so by no field of their own. While another tab writes
 * the job the browser disables all of them, and they look and are announced so. Its box is not drawn.
 */
export function JobControls({ children }: { readonly children: ComponentChildren }) {
  return (
    <fieldset class="job-controls" role="none" disabled={readOnly.value}>
      {children}
    </fieldset>
  );
}
