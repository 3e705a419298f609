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
  Wood,
} from "../../../contract/types";
import type { SideName } from "../work/edit";

const FIELD_NAMES: Record<string, string> = {
  name: "name",
  client: "client",
  notes: "remarks",
  job: "job file",
  "picture.file": "picture",
  "picture.crop": "crop",
  "picture.turn": "rotation",
  "picture.enlarging": "enlarging",
  "face.width_mm": "face width",
  "face.height_mm": "face height",
  "bars.depth_mm": "bar depth",
  "bars.width_mm": "bar width",
  "bars.wood": "wood of the bars",
  "bars.density_kg_m3": "density of the wood",
  variants: "the variants",
  "group.panels": "panels",
  "group.gap_mm": "gap",
  "group.hung": "how the panels hang",
  "group.across_gap": "picture across the gap",
  panel: "panel",
  "wrap.turnover_mm": "turn-over on the back",
  "wrap.ink_over_mm": "bleed on to the back",
  "wrap.finish": "corner finish",
  "wrap.over": "sides that the corners fold on to",
  "wrap.corners": "corners on the back",
  "wrap.setback_mm": "set-back",
  "wrap.tab_mm": "tab",
  "sides.fill": "side fill",
  "sides.blur_mm": "blur towards the wall",
  "sides.band_mm": "band",
  "sides.colour": "side colour",
  "sheet.width_mm": "sheet width",
  "sheet.height_mm": "sheet height",
  "sheet.margin_mm": "margins",
  "sheet.margin_mm.0": "top margin",
  "sheet.margin_mm.1": "right margin",
  "sheet.margin_mm.2": "bottom margin",
  "sheet.margin_mm.3": "left margin",
  "canvas.thickness_mm": "canvas thickness",
  "canvas.weight_gsm": "canvas weight",
  "canvas.coated": "coating",
  "canvas.stretch_percent.0": "how much the canvas gives across",
  "canvas.stretch_percent.1": "how much the canvas gives down",
  "colour.profile": "canvas profile",
  "colour.intent": "rendering intent",
  "colour.black_point_compensation": "black point compensation",
  "colour.clip_threshold_de": "threshold",
  "colour.bring_in": "bringing colours in",
  "print.ppi": "resolution",
  "print.convert": "colours in the file",
  "print.bits": "bits a channel",
  "print.marks": "marks",
  "print.sharpening": "sharpening",
  "plan.copies": "copies",
  "plan.gap_mm": "gap between pieces",
  "plan.knife_mm": "width of the cut",
  "plan.price": "price of a square metre",
  "plan.x_mm": "place across",
  "plan.y_mm": "place down",
  "stills.width": "width of the still",
  "stills.height": "height of the still",
};

/** A job may name any key, also one that every object has, such as `toString`. */
function ownName(field: string): string | undefined {
  return Object.hasOwn(FIELD_NAMES, field) ? FIELD_NAMES[field] : undefined;
}

/** A field in words; a field without a name of its own is called by its dotted name. */
export function fieldName(field: string): string {
  const side = /^sides\.(top|right|bottom|left)\.(\w+)$/.exec(field);
  if (side) return `${side[1]} side, ${ownName(`sides.${side[2]}`) ?? side[2]}`;
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
    word: "Tucked",
    meaning: "the folded corner lies under the other sides, its edge on the front edge; nothing of it shows",
  },
  {
    value: "lapped",
    word: "Lapped",
    meaning: "half of each corner square is wrapped over the other sides as a flap at 45°",
  },
  {
    value: "trimmed",
    word: "Trimmed",
    meaning: "the corner square is cut away but for a tab; the edges meet at the corner",
  },
];

export const OVER_PAIRS: readonly DescribedOption<OverPair>[] = [
  {
    value: "top-bottom",
    word: "Top and bottom",
    meaning: "the folded corners lie above and below; left and right stay clean",
  },
  {
    value: "left-right",
    word: "Left and right",
    meaning: "the folded corners lie at the sides; top and bottom stay clean",
  },
];

export const WOODS: readonly Option<Wood>[] = [
  { value: "unknown", word: "Not known" },
  { value: "softwood", word: "Some softwood" },
  { value: "hardwood", word: "Some hardwood" },
  { value: "spruce", word: "Spruce" },
  { value: "pine", word: "Pine" },
  { value: "basswood", word: "Basswood" },
  { value: "yellow-poplar", word: "Yellow-poplar" },
  { value: "beech", word: "Beech" },
];

export const CORNERS: readonly DescribedOption<Corners>[] = [
  { value: "whole", word: "Whole", meaning: "nothing is cut; more layers on the back" },
  {
    value: "cut-back",
    word: "Cut back",
    meaning: "the part of each corner that would lie on the back is cut away; flatter on the back",
  },
];

export const HUNG: readonly DescribedOption<Hung>[] = [
  { value: "across", word: "Across", meaning: "beside one another, counted from the left" },
  { value: "down", word: "Down", meaning: "one above the other, counted from the top" },
];

export const ACROSS_GAP: readonly DescribedOption<AcrossGap>[] = [
  { value: "behind", word: "Behind it", meaning: "the picture runs on behind the gap, as behind a glazing bar" },
  { value: "joined", word: "Joined", meaning: "nothing is lost in the gap; lines that cross it are set apart" },
];

export const FILLS: readonly DescribedOption<Fill>[] = [
  {
    value: "run-on",
    word: "Picture runs on",
    meaning: "the picture itself runs round the front edge; the face shows less of it",
  },
  { value: "mirror", word: "Mirror", meaning: "the strip beside the front edge, reflected" },
  { value: "drawn-out", word: "Edge drawn out", meaning: "the colours along the front edge run straight out" },
  { value: "plain", word: "Plain colour", meaning: "one colour" },
  {
    value: "fade",
    word: "Mirror into plain",
    meaning: "a mirror at the front edge that becomes one colour at the wall",
  },
  { value: "continued", word: "Lines continued", meaning: "made up from the strip beside the edge; invented picture" },
];

/** The word of a fill. */
export function fillWord(fill: Fill): string {
  return FILLS.find(({ value }) => value === fill)?.word ?? fill;
}

export const FORMATS: readonly DescribedOption<FileKind>[] = [
  { value: "tiff", word: "TIFF", meaning: "no loss; what most printing programs take" },
  { value: "png", word: "PNG", meaning: "no loss, smaller, slower to save" },
  { value: "jpeg", word: "JPEG", meaning: "much smaller, with a little loss" },
  {
    value: "pdf",
    word: "PDF",
    meaning: "no loss, slower to save; a page of the exact size with marks and letters as outlines",
  },
];

export const ENLARGINGS: readonly DescribedOption<Enlarging>[] = [
  { value: "photograph", word: "Photograph", meaning: "smooth, with all of its detail; hard edges get no fringes" },
  { value: "drawing", word: "Drawing", meaning: "for line art and lettering: edges stay sharper, flat areas flat" },
];

export const DEPTHS: readonly DescribedOption<"8" | "16">[] = [
  { value: "8", word: "8", meaning: "what printing programs take" },
  { value: "16", word: "16", meaning: "finer steps in a file of twice the size, as TIFF or PNG" },
];

export const INTENTS: readonly DescribedOption<Intent>[] = [
  { value: "perceptual", word: "Perceptual", meaning: "all colours are drawn together, so that steps stay apart" },
  {
    value: "relative",
    word: "Relative",
    meaning: "what the canvas holds stays as it is; what it does not hold goes to the nearest that it does",
  },
  { value: "saturation", word: "Saturation", meaning: "vivid before true; hue and lightness may move" },
  {
    value: "absolute",
    word: "Absolute",
    meaning: "as relative, with the canvas's own white laid under the picture; meant for proofs of other prints",
  },
];

/** The colours of the print file, for a picture with or without a usable profile of its own. */
export function conversions(hasProfile: boolean): readonly DescribedOption<Convert>[] {
  return [
    {
      value: "keep",
      word: "Keep the picture's",
      meaning: hasProfile
        ? "the values stay as they are, and the picture's profile is embedded"
        : "the values stay as they are; the picture has no usable profile, so none is embedded",
    },
    {
      value: "convert",
      word: "Convert to the canvas's",
      meaning: "the file holds what the printer is sent, with the canvas profile embedded",
    },
  ];
}

export const SIDE_WORDS: Record<SideName, string> = { top: "Top", right: "Right", bottom: "Bottom", left: "Left" };

/** Named colours for plain sides; invented values. */
export const NAMED_COLOURS: readonly { readonly name: string; readonly hex: string }[] = [
  { name: "White", hex: "#ffffff" },
  { name: "Chalk", hex: "#efe9dc" },
  { name: "Stone", hex: "#b9b0a2" },
  { name: "Slate", hex: "#4a4f57" },
  { name: "Umber", hex: "#4b3627" },
  { name: "Black", hex: "#111111" },
];
