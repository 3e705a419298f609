// The names of the job's and the stills' fields and of options on the page; trade terms.
import type {
  AcrossGap,
  Convert,
  Corners,
  Enlarging,
  FileKind,
  Fill,
  Finish,
  Hung,
  Intent,
  OverPair,
  PictureInfo,
  Wood,
} from "../../../contract/types";
import type { SideName } from "../work/edit";
import { say } from "../../../speech/on_page";

const FIELD_NAMES: Record<string, string> = {
  name: say("name"),
  client: say("client"),
  notes: say("remarks"),
  job: say("job file"),
  "picture.file": say("picture"),
  "picture.crop": say("crop"),
  "picture.turn": say("rotation"),
  "picture.enlarging": say("enlarging"),
  "face.width_mm": say("face width"),
  "face.height_mm": say("face height"),
  "bars.depth_mm": say("bar depth"),
  "bars.width_mm": say("bar width"),
  "bars.wood": say("wood of the bars"),
  "bars.density_kg_m3": say("density of the wood"),
  variants: say("the variants"),
  "group.panels": say("panels"),
  "group.gap_mm": say("gap"),
  "group.hung": say("how the panels hang"),
  "group.across_gap": say("picture across the gap"),
  panel: say("panel"),
  "wrap.turnover_mm": say("turn-over on the back"),
  "wrap.ink_over_mm": say("bleed on to the back"),
  "wrap.finish": say("corner finish"),
  "wrap.over": say("sides that the corners fold on to"),
  "wrap.corners": say("corners on the back"),
  "wrap.setback_mm": say("set-back"),
  "wrap.tab_mm": say("tab"),
  "sides.fill": say("side fill"),
  "sides.blur_mm": say("blur towards the wall"),
  "sides.band_mm": say("band"),
  "sides.colour": say("side colour"),
  "sheet.width_mm": say("sheet width"),
  "sheet.height_mm": say("sheet height"),
  "sheet.margin_mm": say("margins"),
  "sheet.margin_mm.0": say("top margin"),
  "sheet.margin_mm.1": say("right margin"),
  "sheet.margin_mm.2": say("bottom margin"),
  "sheet.margin_mm.3": say("left margin"),
  "canvas.thickness_mm": say("canvas thickness"),
  "canvas.weight_gsm": say("canvas weight"),
  "canvas.coated": say("coating"),
  "canvas.stretch_percent.0": say("how much the canvas gives across"),
  "canvas.stretch_percent.1": say("how much the canvas gives down"),
  "colour.profile": say("canvas profile"),
  "colour.intent": say("rendering intent"),
  "colour.black_point_compensation": say("black point compensation"),
  "colour.clip_threshold_de": say("threshold"),
  "colour.bring_in": say("bringing colours in"),
  "print.ppi": say("resolution"),
  "print.convert": say("colours in the file"),
  "print.bits": say("bits a channel"),
  "print.marks": say("marks"),
  "print.sharpening": say("sharpening"),
  "plan.copies": say("copies"),
  "plan.gap_mm": say("gap between pieces"),
  "plan.knife_mm": say("width of the cut"),
  "plan.price": say("price of a square metre"),
  "plan.x_mm": say("place across"),
  "plan.y_mm": say("place down"),
  "stills.width": say("width of the still"),
  "stills.height": say("height of the still"),
};

/** A job may name any key, also one that every object has, such as `toString`. */
function ownName(field: string): string | undefined {
  return Object.hasOwn(FIELD_NAMES, field) ? FIELD_NAMES[field] : undefined;
}

/** A field in words; a field without a name of its own is called by its dotted name. */
export function fieldName(field: string): string {
  const side = /^sides\.(top|right|bottom|left)\.(\w+)$/.exec(field);
  if (side)
    return say("{side} side, {ownName}", {
      side: side[1] ?? "",
      ownName: ownName(`sides.${side[2]}`) ?? side[2] ?? "",
    });
  return ownName(field) ?? field;
}

/** An option: its value and its word on the page. */
export interface Option<T extends string> {
  readonly value: T;
  readonly word: string;
}

/** An option with its meaning. */
export interface DescribedOption<T extends string> extends Option<T> {
  readonly meaning: string;
}

export const FINISHES: readonly DescribedOption<Finish>[] = [
  {
    value: "tucked",
    word: say("Tucked"),
    meaning: say("the folded corner lies under the other sides, its edge on the front edge; nothing of it shows"),
  },
  {
    value: "lapped",
    word: say("Lapped"),
    meaning: say("half of each corner square is wrapped over the other sides as a flap at 45°"),
  },
  {
    value: "trimmed",
    word: say("Trimmed"),
    meaning: say("the corner square is cut away but for a tab; the edges meet at the corner"),
  },
];

export const OVER_PAIRS: readonly DescribedOption<OverPair>[] = [
  {
    value: "top-bottom",
    word: say("Top and bottom"),
    meaning: say("the folded corners lie above and below; left and right stay clean"),
  },
  {
    value: "left-right",
    word: say("Left and right"),
    meaning: say("the folded corners lie at the sides; top and bottom stay clean"),
  },
];

export const WOODS: readonly Option<Wood>[] = [
  { value: "unknown", word: say("Not known") },
  { value: "softwood", word: say("Some softwood") },
  { value: "hardwood", word: say("Some hardwood") },
  { value: "spruce", word: say("Spruce") },
  { value: "pine", word: say("Pine") },
  { value: "basswood", word: say("Basswood") },
  { value: "yellow-poplar", word: say("Yellow-poplar") },
  { value: "beech", word: say("Beech") },
];

export const CORNERS: readonly DescribedOption<Corners>[] = [
  { value: "whole", word: say("Whole"), meaning: say("nothing is cut; more layers on the back") },
  {
    value: "cut-back",
    word: say("Cut back"),
    meaning: say("the part of each corner that would lie on the back is cut away; flatter on the back"),
  },
];

export const HUNG: readonly DescribedOption<Hung>[] = [
  { value: "across", word: say("Across"), meaning: say("beside one another, counted from the left") },
  { value: "down", word: say("Down"), meaning: say("one above the other, counted from the top") },
];

export const ACROSS_GAP: readonly DescribedOption<AcrossGap>[] = [
  {
    value: "behind",
    word: say("Behind it"),
    meaning: say("the picture runs on behind the gap, as behind a glazing bar"),
  },
  {
    value: "joined",
    word: say("Joined"),
    meaning: say("nothing is lost in the gap; lines that cross it are set apart"),
  },
];

export const FILLS: readonly DescribedOption<Fill>[] = [
  {
    value: "run-on",
    word: say("Picture runs on"),
    meaning: say("the picture itself runs round the front edge; the face shows less of it"),
  },
  { value: "mirror", word: say("Mirror"), meaning: say("the strip beside the front edge, reflected") },
  {
    value: "drawn-out",
    word: say("Edge drawn out"),
    meaning: say("the colours along the front edge run straight out"),
  },
  { value: "plain", word: say("Plain colour"), meaning: say("one colour") },
  {
    value: "fade",
    word: say("Mirror into plain"),
    meaning: say("a mirror at the front edge that becomes one colour at the wall"),
  },
  {
    value: "continued",
    word: say("Lines continued"),
    meaning: say("made up from the strip beside the edge, or a mirror where that looks better"),
  },
];

/** The word of a fill. */
export function fillWord(fill: Fill): string {
  return FILLS.find(({ value }) => value === fill)?.word ?? fill;
}

export const FORMATS: readonly DescribedOption<FileKind>[] = [
  { value: "tiff", word: say("TIFF"), meaning: say("no loss; what most printing programs take") },
  { value: "png", word: say("PNG"), meaning: say("no loss, smaller, slower to save") },
  { value: "jpeg", word: say("JPEG"), meaning: say("much smaller, with a little loss") },
  {
    value: "pdf",
    word: say("PDF"),
    meaning: say("no loss, slower to save; a page of the exact size with marks and letters as outlines"),
  },
];

export const ENLARGINGS: readonly DescribedOption<Enlarging>[] = [
  {
    value: "photograph",
    word: say("Photograph"),
    meaning: say("smooth, with all of its detail; hard edges get no fringes"),
  },
  {
    value: "drawing",
    word: say("Drawing"),
    meaning: say("for line art and lettering: edges stay sharper, flat areas flat"),
  },
];

export const DEPTHS: readonly DescribedOption<"8" | "16">[] = [
  { value: "8", word: "8", meaning: say("what printing programs take") },
  { value: "16", word: "16", meaning: say("finer steps in a file of twice the size, as TIFF, PNG or PDF") },
];

export const INTENTS: readonly DescribedOption<Intent>[] = [
  {
    value: "perceptual",
    word: say("Perceptual"),
    meaning: say("all colours are drawn together, so that steps stay apart"),
  },
  {
    value: "relative",
    word: say("Relative"),
    meaning: say("what the canvas holds stays as it is; what it does not hold goes to the nearest that it does"),
  },
  { value: "saturation", word: say("Saturation"), meaning: say("vivid before true; hue and lightness may move") },
  {
    value: "absolute",
    word: say("Absolute"),
    meaning: say("as relative, with the canvas's own white laid under the picture; meant for proofs of other prints"),
  },
];

/** The colours of the print file, for a picture with or without a usable profile of its own. */
export function conversions(info: PictureInfo | undefined): readonly DescribedOption<Convert>[] {
  return [
    { value: "keep", word: say("Keep the picture's"), meaning: keptMeaning(info) },
    {
      value: "convert",
      word: say("Convert to the canvas's"),
      meaning: say("the file holds what the printer is sent, with the canvas profile embedded"),
    },
  ];
}

/** Notes on a picture whose profile is missing or left out. */
const WITHOUT_PROFILE: ReadonlySet<string> = new Set(["profile-missing", "profile-mismatch", "profile-damaged"]);

function keptMeaning(info: PictureInfo | undefined): string {
  if (info?.profile_assumed === true)
    return say("the values stay as they are; the picture has no usable profile, so the file says that they are sRGB");
  if (info?.notes.some(({ code }) => WITHOUT_PROFILE.has(code)) === true)
    return say("the values stay as they are; the picture has no usable profile, so none is embedded");
  return say("the values stay as they are, and the picture's profile is embedded");
}

export const SIDE_WORDS: Record<SideName, string> = {
  top: say("Top"),
  right: say("Right"),
  bottom: say("Bottom"),
  left: say("Left"),
};

/** Named colours for plain sides; invented values. */
export const NAMED_COLOURS: readonly { readonly name: string; readonly hex: string }[] = [
  { name: say("White"), hex: "#ffffff" },
  { name: say("Chalk"), hex: "#efe9dc" },
  { name: say("Stone"), hex: "#b9b0a2" },
  { name: say("Slate"), hex: "#4a4f57" },
  { name: say("Umber"), hex: "#4b3627" },
  { name: say("Black"), hex: "#111111" },
];
