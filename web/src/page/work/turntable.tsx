// The turntable: the piece turned once round, as one animated picture.
import { Words } from "../controls/choice";
import { bytesShown } from "../state/consequences";
import { download } from "../state/files";
import { upper } from "../state/messages";
import { fieldName } from "../state/names";
import { theStage } from "../state/the_stage";
import {
  makeTurntable,
  stopTurning,
  TURN_FRAMES,
  turnFrames,
  turnKind,
  TURN_SIZES,
  turnSeconds,
  turnSize,
  type Turning,
  turning,
} from "../state/turntable";
import { trimmed } from "../state/units";
import { wallState } from "../state/view";

const KINDS = [
  { value: "webp", word: "WebP" },
  { value: "gif", word: "GIF" },
] as const;
const SECONDS = [3, 4, 6, 10] as const;

/** Numbers as words to choose from. */
function counted(numbers: readonly number[]): readonly { readonly value: string; readonly word: string }[] {
  return numbers.map((number) => ({ value: String(number), word: String(number) }));
}

export function Turntable() {
  const now = turning.value;
  const there = theStage.value !== undefined && wallState.value === "drawn";
  return (
    <div class="part" id="turntable">
      <h3 class="minor">Turntable</h3>
      <p class="meaning">
        One turn about the upright axis, for ever. The light turns with the piece, so that its colours stay true.
      </p>
      <div class="field">
        <Words
          id="turn-kind"
          label="Format"
          value={turnKind.value}
          options={KINDS}
          choose={(chosen) => (turnKind.value = chosen)}
        />
        <p class="meaning">
          {turnKind.value === "webp" ? "All colours, a small file." : "256 colours, larger; opens everywhere."}
        </p>
      </div>
      <div class="field">
        <Words
          id="turn-size"
          label="Width and height, pixels"
          value={String(turnSize.value)}
          options={counted(TURN_SIZES)}
          choose={(chosen) => (turnSize.value = Number(chosen))}
        />
      </div>
      <div class="field">
        <Words
          id="turn-frames"
          label="Frames"
          value={String(turnFrames.value)}
          options={counted(TURN_FRAMES)}
          choose={(chosen) => (turnFrames.value = Number(chosen))}
        />
      </div>
      <div class="field">
        <Words
          id="turn-seconds"
          label="Seconds for one turn"
          value={String(turnSeconds.value)}
          options={counted(SECONDS)}
          choose={(chosen) => (turnSeconds.value = Number(chosen))}
        />
      </div>
      {now.state === "turning" ? (
        <div class="write-going">
          <label class="field-label" for="turn-progress">
            {now.label}
          </label>
          <progress id="turn-progress" max={1} value={now.done}>
            {Math.round(now.done * 100)} %
          </progress>
          <button type="button" class="button" onClick={stopTurning}>
            Stop
          </button>
        </div>
      ) : (
        <button
          type="button"
          class="button"
          id="make-turntable"
          disabled={!there}
          onClick={() => void makeTurntable()}
        >
          Make the turntable
        </button>
      )}
      {!there && <p class="consequence">A turntable needs the wall, which cannot be drawn at the moment.</p>}
      <div aria-live="polite">
        <Outcome now={now} />
      </div>
    </div>
  );
}

function Outcome({ now }: { readonly now: Turning }) {
  if (now.state === "stopped") return <p class="consequence">Stopped; no file was written.</p>;
  if (now.state === "failed") {
    const { field, expected, got, remedy } = now.message;
    return (
      <p class="message">
        {field !== "" && <strong>{upper(fieldName(field))}: </strong>}
        expected {expected}; got {got}. <em>{upper(remedy)}.</em>
      </p>
    );
  }
  if (now.state !== "written") return null;
  const { report, file } = now;
  return (
    <div class="report" id="turn-report">
      <p>
        <strong>{report.file}</strong> was written, opened again and measured:
      </p>
      <dl>
        <dt>Pixels</dt>
        <dd>
          {report.width_px} × {report.height_px}
        </dd>
        <dt>Frames</dt>
        <dd>
          {report.frames} in {trimmed(report.seconds, 2)} s
        </dd>
        <dt>File</dt>
        <dd>{bytesShown(report.bytes)}</dd>
      </dl>
      <button type="button" class="button" onClick={() => download(file, report.file)}>
        Save it again
      </button>
    </div>
  );
}
