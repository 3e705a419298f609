// The figures of clipping: for the face and each side, and for groups of similar hue.
import type { ClipGroup, ClipPart, ClipReply } from "../../../contract/types";
import { AmountField } from "../../controls/amount";
import { clipQuery, clipped, toggleHighlight, highlighted } from "../../state/colour/clip";
import { lookQuery } from "../../state/colour/look";
import { liveThreshold, threshold } from "../../state/colour/viewing";
import { clipSentence, deShown, FIGURES_LACKING, KIND_HEADS, KINDS, shareShown } from "../../state/colour/words";
import { capitalised } from "../../state/page/fields";
import { setColour } from "../../state/work/edit";
import { job, lacksPicture } from "../../state/work/work";
import { saidAgain, say, sayParts } from "../../../speech/on_page";

/** The slider's end while the scale of the gamut map is unknown; the entry accepts more. */
const LARGEST_DE = 15;

export function WhatClips() {
  const value = job.value?.colour.clip_threshold_de;
  if (value === undefined) return null;
  const reply = clipQuery.failure.value === undefined ? clipped.value?.reply : undefined;
  return (
    <div>
      <h3 class="minor">{say("Out of gamut")}</h3>
      <AmountField
        field="colour.clip_threshold_de"
        label={say("Threshold")}
        value={value}
        set={(clip_threshold_de) => setColour({ clip_threshold_de })}
        live={liveThreshold}
        from={0}
        to={lookQuery.known.value?.value.look.scaleFullDe ?? LARGEST_DE}
        by={0.1}
        scale={1}
        unit={say("ΔE00")}
        shown={deShown}
        consequence={say("A colour that is off by {threshold} or less does not count.", {
          threshold: deShown(threshold.value),
        })}
      />
      <div class="clip-figures" data-pending={clipQuery.pending.value}>
        <p class="consequence" id="clip-says" aria-live="polite">
          {reply ? clipSentence(reply) : whyNone()}
        </p>
        {reply && <Parts reply={reply} />}
        {reply && reply.groups.length > 0 && <HueGroups groups={reply.groups} />}
      </div>
    </div>
  );
}

function whyNone(): string {
  if (lacksPicture.value) return FIGURES_LACKING;
  return clipQuery.failure.value === undefined
    ? say("The figures are being worked out.")
    : say("There are no figures without a profile.");
}

function Parts({ reply }: { readonly reply: ClipReply }) {
  const before = (job.value?.colour.bring_in ?? 0) > 0;
  return (
    <table class="figures" id="clip-parts">
      <caption class="visually-hidden">{say("Share of the face and of each side that is out of gamut")}</caption>
      <thead>
        <tr>
          <th scope="col">
            <span class="visually-hidden">{say("Part")}</span>
          </th>
          <th scope="col">{say("Out")}</th>
          {KINDS.map((kind) => (
            <th key={kind} scope="col">
              {KIND_HEADS[kind]}
            </th>
          ))}
          {before && <th scope="col">{say("Without")}</th>}
        </tr>
      </thead>
      <tbody>
        {reply.parts.map((part) => (
          <OnePart key={part.name} part={part} before={before} />
        ))}
      </tbody>
    </table>
  );
}

function OnePart({ part, before }: { readonly part: ClipPart; readonly before: boolean }) {
  return (
    <tr>
      <th scope="row">{capitalised(saidAgain(part.name))}</th>
      <td>
        <strong>{shareShown(part.share)}</strong>
      </td>
      {KINDS.map((kind) => (
        <td key={kind}>{shareShown(part[kind])}</td>
      ))}
      {before && <td>{shareShown(part.share_before)}</td>}
    </tr>
  );
}

function HueGroups({ groups }: { readonly groups: readonly ClipGroup[] }) {
  return (
    <>
      <h4 class="minor" id="groups-title">
        {say("Colours out of gamut")}
      </h4>
      <ul class="hue-groups" aria-labelledby="groups-title">
        {groups.map((group) => (
          <HueGroupItem key={group.name} group={group} pressed={highlighted.value?.name === group.name} />
        ))}
      </ul>
      <p class="aside">{say("Original on the left, printed on the right. Escape ends the highlight.")}</p>
    </>
  );
}

function HueGroupItem({ group, pressed }: { readonly group: ClipGroup; readonly pressed: boolean }) {
  return (
    <li class="hue-group">
      <span
        class="hue-group-pair"
        role="img"
        aria-label={say("original {filed}, prints as {printed}", { filed: group.filed, printed: group.printed })}
      >
        <i style={{ background: group.filed }} />
        <i style={{ background: group.printed }} />
      </span>
      <span class="hue-group-figures">
        {sayParts("{group}, {share} of the canvas", {
          group: <strong>{capitalised(group.name)}</strong>,
          share: shareShown(group.share),
        })}
        <br />
        {say("mean {mean_de}, worst {worst_de}", {
          mean_de: deShown(group.mean_de),
          worst_de: deShown(group.worst_de),
        })}
      </span>
      <button
        type="button"
        class="button"
        aria-pressed={pressed}
        aria-label={say("Show where: {group}", { group: group.name })}
        onClick={() => toggleHighlight(group.name)}
      >
        {say("Show where")}
      </button>
    </li>
  );
}
