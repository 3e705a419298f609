// The turntable: the piece turned once round, as one animated picture.
import { pressable } from "../../controls/pressable";
import type { Signal } from "@preact/signals";
import type { TurntableReport } from "../../../contract/types";
import { RadioGroup } from "../../controls/choice";
import { ProgressBar, MadeReport, Outcome } from "../../controls/making";
import { bytesShown } from "../../state/layout/consequences";
import type { MadeFile } from "../../state/output/making";
import { mountedStage, wallState } from "../../state/page/view";
import {
  makeTurntable,
  TURN_FRAMES,
  turnFrames,
  turnKind,
  TURN_SIZES,
  turnSeconds,
  turnSize,
  turntable,
} from "../../state/output/turntable";
import { trimmed } from "../../../units";
import { say, sayParts } from "../../../speech/on_page";

const KINDS = [
  { value: "webp", word: say("WebP") },
  { value: "gif", word: say("GIF") },
] as const;
const SECONDS = [3, 4, 6, 10] as const;

export function Turntable() {
  const now = turntable.now.value;
  const there = mountedStage.value !== undefined && wallState.value === "drawn";
  return (
    <div class="part" id="turntable">
      <h3 class="minor">{say("Turntable")}</h3>
      <p class="meaning">
        {say(
          "One turn about the upright axis, again and again. The light turns with the piece, so that its colours stay true.",
        )}
      </p>
      <div class="field">
        <RadioGroup
          id="turn-kind"
          label={say("Format of the turntable")}
          value={turnKind.value}
          options={KINDS}
          choose={(chosen) => (turnKind.value = chosen)}
        />
        <p class="meaning">
          {turnKind.value === "webp"
            ? say("All colours, a small file.")
            : say("256 colours, a larger file; opens everywhere.")}
        </p>
      </div>
      <Counted id="turn-size" label={say("Width and height, pixels")} of={turnSize} numbers={TURN_SIZES} />
      <Counted id="turn-frames" label={say("Frames")} of={turnFrames} numbers={TURN_FRAMES} />
      <Counted id="turn-seconds" label={say("Seconds for one turn")} of={turnSeconds} numbers={SECONDS} />
      {now.state === "making" ? (
        <ProgressBar id="turn-progress" progress={now} stop={() => turntable.stop()} />
      ) : (
        <button type="button" class="button" id="make-turntable" {...pressable(there, () => void makeTurntable())}>
          {say("Save the turntable")}
        </button>
      )}
      {!there && <p class="consequence">{say("A turntable needs the 3D view, which is not running.")}</p>}
      <Outcome now={now} stopped={say("no file was saved")}>
        {(files) => files.map((made) => <Report key={made.report.file} made={made} />)}
      </Outcome>
    </div>
  );
}

interface CountedProps {
  readonly id: string;
  readonly label: string;
  readonly of: Signal<number>;
  readonly numbers: readonly number[];
}

/** One of a few numbers. */
function Counted({ id, label, of, numbers }: CountedProps) {
  return (
    <div class="field">
      <RadioGroup
        id={id}
        label={label}
        value={String(of.value)}
        options={numbers.map((number) => ({ value: String(number), word: String(number) }))}
        choose={(chosen) => (of.value = Number(chosen))}
      />
    </div>
  );
}

function Report({ made }: { readonly made: MadeFile<TurntableReport> }) {
  const { report } = made;
  return (
    <MadeReport made={made} id="turn-report">
      <p>{sayParts("{file} was saved, opened again and measured:", { file: <strong>{report.file}</strong> })}</p>
      <dl>
        <dt>{say("Pixels")}</dt>
        <dd>{`${report.width_px} × ${report.height_px}`}</dd>
        <dt>{say("Frames")}</dt>
        <dd>{say("{frames} in {seconds} s", { frames: report.frames, seconds: trimmed(report.seconds, 2) })}</dd>
        <dt>{say("File")}</dt>
        <dd>{bytesShown(report.bytes)}</dd>
      </dl>
    </MadeReport>
  );
}
