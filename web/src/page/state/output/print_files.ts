// The output of print files: one, or one for each panel of a group.
import type { FileKind, FileReport } from "../../../contract/types";
import { dayOf } from "../../../day";
import { openProfileInCore } from "../colour/profiles";
import { Maker } from "./making";
import { say } from "../../../speech/on_page";

export const printFiles = new Maker<FileReport>();

const TYPES: Record<FileKind, string> = {
  tiff: "image/tiff",
  png: "image/png",
  jpeg: "image/jpeg",
  pdf: "application/pdf",
};

/** Write the print files of the current job, of a group one for each of the panels asked for, and hand them to
 * the downloads one after another. */
export function writeFiles(kind: FileKind, panels: readonly number[]): Promise<void> {
  return printFiles.run(async ({ now, ask, onProgress, deliver }) => {
    const { colour, print, group } = now.job;
    if (print.convert === "convert" || colour.bring_in > 0) await openProfileInCore(colour.profile);
    for (const [place, panel] of panels.entries()) {
      // The core has no clock of its own.
      const params = { job: now.job, kind, date: dayOf(new Date()), panel };
      const answer = await ask("print", params, {
        onProgress: ({ done, label }) =>
          onProgress({
            done: (place + done) / panels.length,
            label:
              group.panels > 1
                ? say("{label}, panel {panel} of {panels}", { label, panel, panels: group.panels })
                : label,
          }),
      });
      deliver(answer, TYPES[kind]);
    }
  });
}
