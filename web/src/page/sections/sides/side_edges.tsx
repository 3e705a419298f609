// Edges worth a look: for each side the judgement of the picture beside the edge, and the fill that suits it better.
import { JobControls } from "../../controls/job_controls";
import { pressable } from "../../controls/pressable";
import type { EdgesReport, SideReport } from "../../../contract/types";
import { More } from "../../controls/section";
import { applyBetterFill, applyCropMove, edges, edgesHold, edgesQuery } from "../../state/sides/edges";
import {
  edgesSentence,
  FIGURES,
  figureShown,
  fillOf,
  LAID_FIGURES,
  moveShown,
  reasonShown,
  suitsShown,
  type FigureWords,
} from "../../state/sides/edge_figures";
import { fillWord, SIDE_WORDS } from "../../state/page/names";
import { unit } from "../../state/page/settings";
import { job } from "../../state/work/work";
import { say, lowered } from "../../../speech/on_page";

export function SideEdges() {
  const reply = edges.value;
  if (reply === undefined) return null;
  return (
    <div class="side-edges" data-pending={edgesQuery.pending.value} id="side-edges">
      <h3 class="minor">{say("Edges worth a look")}</h3>
      <p class="consequence" id="edges-says" tabIndex={-1}>
        {edgesSentence(reply)}
      </p>
      <More summary={say("The figures of each side")}>
        <Figures
          reply={reply}
          columns={FIGURES}
          caption={say("What the picture has beside each front edge, 0 to 1")}
          advised
        />
        <Figures
          reply={reply}
          columns={LAID_FIGURES}
          caption={say("What a mirror and lines continued would look like, 0 to 1")}
        />
        <dl class="glossary">
          {[...FIGURES, ...LAID_FIGURES].map(({ head, meaning }) => (
            <div key={head}>
              <dt>{head}</dt>
              <dd>{meaning}</dd>
            </div>
          ))}
        </dl>
        <p class="aside">
          {say(
            "0 is good and 1 is bad; bold is what makes a side worth a look. The figures come from the picture, not from what the sides show now. They advise; you decide.",
          )}
        </p>
      </More>
    </div>
  );
}

interface FiguresProps {
  readonly reply: EdgesReport;
  readonly columns: readonly FigureWords[];
  readonly caption: string;
  /** Whether what suits each side stands below its figures. */
  readonly advised?: boolean;
}

function Figures({ reply, columns, caption, advised = false }: FiguresProps) {
  return (
    <table class="figures">
      <caption class="visually-hidden">{caption}</caption>
      <thead>
        <tr>
          <th scope="col">
            <span class="visually-hidden">{say("Side")}</span>
          </th>
          {columns.map(({ head, meaning }) => (
            <th key={head} scope="col" title={meaning}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      {reply.sides.map((figures) => (
        <OneSide key={figures.side} figures={figures} columns={columns} advised={advised} />
      ))}
    </table>
  );
}

interface OneSideProps {
  readonly figures: SideReport;
  readonly columns: readonly FigureWords[];
  readonly advised: boolean;
}

function OneSide({ figures, columns, advised }: OneSideProps) {
  const { side, better, reason } = figures;
  return (
    <tbody>
      <tr>
        <th scope="row">{SIDE_WORDS[side]}</th>
        {columns.map(({ name }) => (
          <td key={name}>
            {name === figures.fault ? <strong>{figureShown(figures[name])}</strong> : figureShown(figures[name])}
          </td>
        ))}
      </tr>
      {advised && (
        <tr class="side-advice">
          <td colSpan={columns.length + 1}>
            {reason === "" ? suitsShown(figures) : `${reasonShown(figures)} `}
            {better !== undefined && <BetterFillButton figures={figures} then="edges-says" />}{" "}
            <CropMoveButton figures={figures} then="edges-says" />
          </td>
        </tr>
      )}
    </tbody>
  );
}

interface BetterFillButtonProps {
  readonly figures: SideReport;
  /** The id of the element that gets the focus afterwards, as the button itself disappears. */
  readonly then: string;
}

/** A button that gives the side its better fill; absent when the side has another fill by now. */
export function BetterFillButton({ figures, then }: BetterFillButtonProps) {
  const { side, better } = figures;
  if (better === undefined || job.value === undefined || fillOf(job.value, side) !== figures.fill) return null;
  const take = async () => {
    await applyBetterFill(figures);
    document.getElementById(then)?.focus({ preventScroll: true });
  };
  return (
    <JobControls>
      <button type="button" class="link" onClick={() => void take()}>
        {say("Take {fillWord} for the {side} side", { fillWord: lowered(fillWord(better)), side })}
      </button>
    </JobControls>
  );
}

/** A button that moves the crop so that the side's edge cuts nothing; absent where no move serves. */
export function CropMoveButton({ figures, then }: BetterFillButtonProps) {
  const { side, move } = figures;
  if (move === undefined || job.value === undefined || fillOf(job.value, side) !== figures.fill) return null;
  const take = async () => {
    await applyCropMove(figures);
    document.getElementById(then)?.focus({ preventScroll: true });
  };
  return (
    <JobControls>
      <button type="button" class="link" {...pressable(edgesHold.value, () => void take())}>
        {moveShown(figures, unit.value)}
      </button>
    </JobControls>
  );
}
