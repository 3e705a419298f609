// What the print file does to the colours: keep the picture's, or hold what the printer is sent.
import { Choice } from "../controls/choice";
import { described, ILLUSTRATIVE } from "../state/colour_profiles";
import { ILLUSTRATION } from "../state/colour_words";
import { setPrint } from "../state/edit";
import { CONVERSIONS } from "../state/names";
import { job } from "../state/work";

export function PrintColours() {
  const now = job.value;
  if (now === undefined) return null;
  const { print, colour } = now;
  const converts = print.convert === "convert";
  const profile = described.value[colour.profile]?.description ?? colour.profile;
  const brought = colour.bring_in > 0 ? " What was brought in is brought in in the file too." : "";
  const consequence = converts
    ? `The colours are converted to ${profile}. The file must not be converted again: switch colour management off in the printing program.${brought}`
    : `Let the printing program convert them, once, to the profile of this canvas on this printer.${brought}`;
  return (
    <>
      <Choice
        field="print.convert"
        label="Colours in the file"
        value={print.convert}
        options={CONVERSIONS}
        set={(convert) => setPrint({ convert })}
        consequence={consequence}
      />
      {converts && colour.profile === ILLUSTRATIVE && (
        <p class="illustration" id="convert-warning">
          {ILLUSTRATION} No printer has these values: such a file is of use for trying only.
        </p>
      )}
    </>
  );
}
