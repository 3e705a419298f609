// Figures of colour as text. Pure.
import type { ClipPart, ClipReply, IntentRow, ProfileReply } from "../../../contract/types";
import type { SolidPoints } from "../../../solid/types";
import type { ScreenFacts } from "./viewing";
import { percentShown } from "../../../units";
import { decimal, inRow, language, saidAgain, say } from "../../../speech/on_page";

/** What the invented canvas is called; its file says it in English. */
export const ILLUSTRATIVE_NAME = say("Illustrative matte canvas (invented, not measured)");

export const ILLUSTRATION = say("Illustration only: an invented matte canvas, not a measured one.");

/** Nothing is worked out of a canvas whose picture is not at hand. */
export const FIGURES_LACKING = say("The picture of this job is not open, so there are no figures.");

/** The kinds of clipping. */
export const KINDS = ["chroma", "shadow", "highlight"] as const;

/** What stands over the columns of the kinds. */
export const KIND_HEADS: Record<(typeof KINDS)[number], string> = {
  chroma: say("Chroma"),
  shadow: say("Shadow##tones"),
  highlight: say("Highlight"),
};

export function deShown(de: number): string {
  return say("{de} ΔE00", { de: de.toFixed(1) });
}

/** A share that is not nothing is not shown as nothing. */
export function shareShown(share: number): string {
  return share > 0 && share < 0.0005 ? `< ${decimal("0.1")} %` : percentShown(share);
}

export function labShown([lightness, a, b]: readonly [number, number, number]): string {
  return inRow([decimal(lightness.toFixed(1)), signed(a), signed(b)]);
}

function signed(value: number): string {
  const text = Math.abs(value).toFixed(1);
  return decimal(text === "0.0" ? text : `${value < 0 ? "−" : "+"}${text}`);
}

/** The profile's kind, in a few words. */
export function profileKind({ device, version }: ProfileReply): string {
  return say("{device} printer, ICC {version}", { device, version });
}

export function volumeShown(volume: number): string {
  return say("{volume:s} thousand cubic Lab units", { volume: Math.round(volume / 1000).toLocaleString(language()) });
}

/** A sentence about what of the whole canvas is out of gamut. */
export function clipSentence(reply: ClipReply): string {
  const [face, ...sides] = reply.parts;
  if (face === undefined) return "";
  const most = sides.reduce<ClipPart | undefined>(
    (one, side) => (one && one.share >= side.share ? one : side),
    undefined,
  );
  const over = say("by more than {threshold_de}", { threshold_de: deShown(reply.threshold_de) });
  if (reply.parts.every((part) => part.share === 0)) return say("Nothing is out of gamut {over}.", { over });
  const worst = Math.max(...reply.parts.map((part) => part.worst_de));
  const onSides =
    most && most.share > 0
      ? say("; of the sides the {most} has most, {share}", {
          most: saidAgain(most.name),
          share: shareShown(most.share),
        })
      : "";
  return say("{share} of the face is out of gamut {over}{onSides}. The worst is {worst}.", {
    share: shareShown(face.share),
    over,
    onSides,
    worst: deShown(worst),
  });
}

/** A sentence about the clipped shares before and after bringing in. */
export function broughtSentence(reply: ClipReply): string {
  const [face] = reply.parts;
  if (face === undefined) return "";
  const worst = Math.max(...reply.parts.map((part) => part.share));
  const before = Math.max(...reply.parts.map((part) => part.share_before));
  return say(
    "Of the face {share} is out of gamut, and {share_before} without bringing in; of the worst part {worst} and {before}.",
    {
      share: shareShown(face.share),
      share_before: shareShown(face.share_before),
      worst: shareShown(worst),
      before: shareShown(before),
    },
  );
}

/** A row's figures in the order of the table's columns. */
export function intentFigures(row: IntentRow): string[] {
  return [
    percentNumber(row.flattened_share),
    decimal(row.mean_de.toFixed(1)),
    decimal(row.p95_de.toFixed(1)),
    percentNumber(row.shadow_loss),
    percentNumber(row.highlight_loss),
    decimal(row.hue_shift_deg.toFixed(1)),
    signed(row.chroma_change),
  ];
}

function percentNumber(share: number): string {
  return decimal((share * 100).toFixed(1));
}

/** A sentence about the picture's colours outside the gamut. */
export function solidSentence(points: SolidPoints, threshold_de: number): string {
  let [outside, all, worst] = [0, 0, 0];
  points.share.forEach((share, index) => {
    const lost = points.difference[index] ?? 0;
    all += share;
    if (lost > threshold_de) outside += share;
    worst = Math.max(worst, lost);
  });
  const count = points.share.length.toLocaleString(language());
  if (outside === 0)
    return say("Shown are the {count:s} commonest colours: none of them is out of gamut by more than {threshold_de}.", {
      count,
      threshold_de: deShown(threshold_de),
    });
  return say(
    "Shown are the {count:s} commonest colours: {outside} of their area is out of gamut by more than {threshold_de}, the farthest of them by {worst}.",
    { count, outside: shareShown(outside / all), threshold_de: deShown(threshold_de), worst: deShown(worst) },
  );
}

/** A sentence about the screen as the browser describes it. */
export function screenSentence({ gamut, highRange }: ScreenFacts): string {
  const shows = {
    narrower: say("less than sRGB"),
    srgb: say("about sRGB"),
    p3: say("about Display P3"),
    rec2020: say("about Rec. 2020"),
  }[gamut];
  const range = highRange ? say(", with high dynamic range") : "";
  const wider =
    gamut === "p3" || gamut === "rec2020" ? say("; what the screen could show beyond that is not used") : "";
  return say("The browser says that this screen shows {shows}{range}. The proof is drawn in sRGB{wider}.", {
    shows,
    range,
    wider,
  });
}
