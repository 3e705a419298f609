// Generated from the Python models that pycore/bridge/messages.py brings together; do not edit.
// After a change there: python -m pycore.bridge.schema, then npm run types.
// One long file, because it is one contract and nobody writes it by hand.

/** How a picture with fewer pixels than the canvas is enlarged. */
export type Enlarging = "photograph" | "drawing";
/** What the bars are made of. */
export type Wood =
  "unknown" | "softwood" | "hardwood" | "spruce" | "pine" | "basswood" | "yellow-poplar" | "beech";
/** How the panels of a group hang: beside one another, or one above the other. */
export type Hung = "across" | "down";
/** What becomes of the picture between two panels. */
export type AcrossGap = "behind" | "joined";
/** How a corner is folded. */
export type Finish = "tucked" | "lapped" | "trimmed";
/** The two opposite sides that are folded over the other two. */
export type OverPair = "top-bottom" | "left-right";
/** Whether the turn-over's part of each corner square is kept or cut away. */
export type Corners = "whole" | "cut-back";
/** What a side shows. */
export type Fill = "run-on" | "mirror" | "drawn-out" | "plain" | "fade" | "continued";
/** ICC rendering intents (ISO 15076-1). */
export type Intent = "perceptual" | "relative" | "saturation" | "absolute";
/** Whether the print file keeps the source's colours or holds the canvas profile's device values. */
export type Convert = "keep" | "convert";
/** How much a note matters; the page lists stops first. */
export type Severity = "stop" | "watch" | "hint";
/** What part of the canvas a note is about, so that the page can point there. */
export type Place = "face" | "top" | "right" | "bottom" | "left" | "corners" | "back" | "sheet" | "picture";
/** In which unit lengths are round. */
export type LengthUnit = "mm" | "inch";
/** Where a figure comes from. */
export type Origin = "given" | "published" | "from memory";
/** Why a panel hangs from its rings, without a wire. */
export type NoWire = "heavy" | "flat";
/** Formats of the print file. */
export type FileKind = "tiff" | "png" | "jpeg" | "pdf";
/** What of the canvas the screen shows besides its colours. */
export type Viewing = "canvas" | "black" | "neither";
/** The space in which the screen is drawn to. */
export type Screen = "srgb" | "display-p3";
/** A printed edge of the canvas; iterates in the order top, right, bottom, left. */
export type Side = "top" | "right" | "bottom" | "left";
/** What is chosen. */
export type ChoiceKind = "fills" | "finishes" | "intents";
/** Which colours a model carries. */
export type ModelColours = "filed" | "printed";
/** Formats of an animated picture. */
export type TurntableKind = "webp" | "gif";
/** The wall's colour. */
export type Wall = "plaster" | "chalk" | "sand" | "sage" | "slate";
/** Where the soft light comes from, seen from the front. */
export type LightFrom = "upper-left" | "left" | "above" | "right" | "upper-right";
/** What of known size stands beside the piece. */
export type Beside = "nothing" | "door" | "chair" | "person";
/** What a file is to the job. */
export type Role = "picture" | "profile" | "wall" | "wall-marks";
/** The paper that the ticket is printed on. */
export type Paper = "a4" | "letter";
/** Whether a canvas may lie turned by a quarter. */
export type Turning = "where-equal" | "never";
/** Which way a cut runs. */
export type CutWay = "across" | "down";
/** What an entry stands for. */
export type PresetKind = "sheet" | "roll" | "bars" | "canvas";
/** Where a focal length is known from. */
export type FocalFrom = "exif" | "perspective" | "usual";
/** What may be called. */
export type Method =
  | "hello"
  | "check"
  | "open"
  | "close"
  | "propose_face"
  | "show"
  | "print"
  | "profile"
  | "look"
  | "clip"
  | "intents"
  | "solid"
  | "compare"
  | "edges"
  | "choices"
  | "detail"
  | "model"
  | "turntable"
  | "client"
  | "open_bundle"
  | "save_bundle"
  | "ticket"
  | "plan"
  | "strip"
  | "measure_strip"
  | "answer"
  | "open_presets"
  | "take_preset"
  | "keep_preset"
  | "open_wall"
  | "find_reference"
  | "measure_wall"
  | "wall_canvas"
  | "hang";

/** Every method's parameters and reply, so that one schema holds them all. */
export interface Contract {
  job: Job;
  hello: [HelloParams, HelloReply];
  check: [JobParams, JobReply];
  open: [OpenParams, OpenReply];
  close: [HelloParams, CloseReply];
  propose_face: [ProposeFaceParams, ProposeFaceReply];
  show: [ShowParams, ShowReply];
  print: [PrintParams, PrintReply];
  profile: [ProfileParams, ProfileReply];
  look: [LookParams, LookReply];
  clip: [ClipParams, ClipReply];
  intents: [IntentsParams, IntentsReply];
  solid: [SolidParams, SolidReply];
  compare: [CompareParams, CompareReply];
  edges: [EdgesParams, EdgesReport];
  choices: [ChoicesParams, ChoicesReply];
  detail: [DetailParams, DetailReply];
  model: [ModelParams, ModelReply];
  turntable: [TurntableParams, TurntableReply];
  client: [ClientParams, ClientReply];
  open_bundle: [OpenBundleParams, OpenBundleReply];
  save_bundle: [SaveBundleParams, SaveBundleReply];
  ticket: [TicketParams, TicketReply];
  plan: [PlanParams, Plan];
  strip: [StripParams, StripReply];
  measure_strip: [MeasureStripParams, StripCheck];
  answer: [AnswerParams, AnswerReply];
  open_presets: [OpenPresetsParams, JoinedPresets];
  take_preset: [TakePresetParams, TakePresetReply];
  keep_preset: [KeepPresetParams, PresetsReply];
  open_wall: [OpenWallParams, OpenWallReply];
  find_reference: [FindReferenceParams, FindReferenceReply];
  measure_wall: [MeasureWallParams, MeasureWallReply];
  wall_canvas: [WallCanvasParams, WallCanvasReply];
  hang: [HangParams, HangReply];
  method: Method;
  progress: Progress;
  error: ErrorReply;
}
/** One canvas, from picture to print file. */
export interface Job {
  /** Of the job file. */
  version: 2;
  /** Of the piece. */
  name: string;
  /** For whom it is made. */
  client: string;
  /** Your own remarks. */
  notes: string;
  /** What the client answered to the client page, in their words. */
  answer: string;
  picture: Picture;
  face: Face;
  bars: Bars;
  group: Group;
  wrap: Wrap;
  sides: Sides;
  sheet: Sheet;
  canvas: Canvas;
  colour: Colour;
  print: Print;
}
/** Which picture, turned how, and which part of it. */
export interface Picture {
  /** The picture's name, for your own record; a job holds no pixels. */
  file: string;
  /** Of the file's bytes, hexadecimal: by it a picture is known again. Empty: not known. */
  sha256: string;
  /** Absent: the largest centred crop of the needed shape. */
  crop?: Crop;
  /** Clockwise, degrees, after the picture was set upright by its EXIF orientation; the crop comes after. */
  turn: 0 | 90 | 180 | 270;
  /** Drawing: edges of line art and lettering stay sharper, and flat areas flat. */
  enlarging: Enlarging;
}
/** A window on the upright picture, in fractions of its width and height, from its top-left corner. */
export interface Crop {
  x: number;
  y: number;
  width: number;
  height: number;
}
/** The front of the finished piece. */
export interface Face {
  /** Across, as it hangs. */
  width_mm: number;
  /** From the bottom front edge to the top one. */
  height_mm: number;
}
/** The stretcher bars. */
export interface Bars {
  /** How far the bars stand off the wall. */
  depth_mm: number;
  /** Of a bar, from the back. Absent: 40 mm, on a small face 22 percent of its shorter side, rounded. */
  width_mm?: number;
  /** By it the bars are weighed. */
  wood: Wood;
  /** Of the bars as they are, where you know it; then the kind of wood does not count. */
  density_kg_m3?: number;
}
/** One picture across several panels, each of the face's size and wrapped by itself. */
export interface Group {
  /** How many panels share the picture. */
  panels: number;
  /** Of wall between two neighbours' sides. */
  gap_mm: number;
  /** Across: beside one another, counted from the left; down: one above the other, counted from the top. */
  hung: Hung;
  /** Behind: the picture runs on behind the gap, as behind a glazing bar; joined: nothing is lost in it. */
  across_gap: AcrossGap;
}
/** How the canvas goes round the bars. */
export interface Wrap {
  /** Canvas folded on to the back, for the staples. */
  turnover_mm: number;
  /** How far the ink runs on to the back, so that no white shows at the back edge; at most the turn-over. */
  ink_over_mm: number;
  /** How the corners are folded. */
  finish: Finish;
  /** The two sides that carry the folded corners. */
  over: OverPair;
  /** Cut-back: the back's part of each corner square is cut away, so that the back is flatter. */
  corners: Corners;
  /** Tucked: how far the fold edge stands back from the edge at the wall. */
  setback_mm: number;
  /** Trimmed: the tab left under the fold edge; at most half the bar depth. */
  tab_mm: number;
}
/** What the sides show: one fill for all, and each side's own where it differs. */
export interface Sides {
  /** What the sides show. */
  fill: Fill;
  /** Blur at the back edge; none at the front edge, more and more with distance. */
  blur_mm: number;
  /** Drawn-out sides and the mean colour: how much of the picture beside the edge is averaged. */
  band_mm: number;
  /** #rrggbb (sRGB), or edge: the mean colour of the band beside the edge. */
  colour: string;
  top?: SideFill;
  right?: SideFill;
  bottom?: SideFill;
  left?: SideFill;
}
/** One side's own fill; what is absent follows the fill of all sides. */
export interface SideFill {
  fill?: Fill;
  blur_mm?: number;
  band_mm?: number;
  colour?: string;
}
/** What is loaded in the printer; without a height it is a roll. */
export interface Sheet {
  /** Of the sheet, or of the roll. */
  width_mm: number;
  /** Absent: a roll. */
  height_mm?: number;
  /** Unprintable margins: top, right, bottom, left. */
  margin_mm: [number, number, number, number];
}
/** The canvas itself. */
export interface Canvas {
  /** The printed face is wider than the bars by twice this. */
  thickness_mm: number;
  /** Mass of a square metre of canvas. */
  weight_gsm: number;
  /** How much it grows across and down when it is pulled tight. */
  stretch_percent: [number, number];
  /** Whether the print is coated; only the weight depends on it. */
  coated: boolean;
}
/** The canvas's profile and how colours are brought to it. */
export interface Colour {
  /** The canvas's profile: its file's name; the default is the illustrative canvas. */
  profile: string;
  /** Rendering intent (ISO 15076-1). */
  intent: Intent;
  /** Whether the picture's black is carried to the canvas's black (ISO 18619). */
  black_point_compensation: boolean;
  /** From which difference (CIEDE2000) on a colour counts as outside the gamut. */
  clip_threshold_de: number;
  /** How much of what lies outside the canvas's gamut is brought in before printing: 0 nothing, 1 all. */
  bring_in: number;
}
/** The print file. */
export interface Print {
  /** Pixels per inch of canvas in the print file. */
  ppi: number;
  /** Keep: the picture's own colours, with its profile; convert: the canvas's. */
  convert: Convert;
  /** Bits a channel; 16 in a TIFF, a PNG or a PDF only. */
  bits: 8 | 16;
  /** Fold ticks, trim corners and a line of text, where nobody will see them. */
  marks: boolean;
  /** How much of its finest detail is added to the picture on the canvas: 0 nothing, 1 all. */
  sharpening: number;
}
/** Nothing is needed. */
export interface HelloParams {}
/** The core is there. */
export interface HelloReply {
  version: string;
  python: string;
  numpy: string;
  pillow: string;
  /** A job with every field at its default. */
  job: Job;
}
/** The text of a job file. */
export interface JobParams {
  text: string;
}
/** A checked job. */
export interface JobReply {
  job: Job;
  /** What of an earlier version's file is worth a look. */
  notes: Note[];
}
/** Something to watch, where, and the way to mend it. */
export interface Note {
  /** A stable word, for example `sheet-short`. */
  code: string;
  severity: Severity;
  place: Place;
  /** What is the matter, with its figures and units. Common practice and numbers from memory say so. */
  message: string;
  remedy: string;
  /** The job field that would mend it, or nothing. */
  field: string;
  /** The values in message and remedy by name, the same in every language; words are the English ones. */
  values: {
    [k: string]: boolean | number | string;
  };
}
/** The picture's file name; its bytes travel as the call's buffer. */
export interface OpenParams {
  file: string;
}
/** The opened picture and a small copy of it. */
export interface OpenReply {
  info: PictureInfo;
  /** (height, width, 4), uint8, srgb_encoded: upright, not turned, not cropped. */
  thumbnail: Buffer;
}
/** What is known of an opened picture. */
export interface PictureInfo {
  file: string;
  /** JPEG, PNG, TIFF, WebP. */
  format: string;
  /** Upright, after the EXIF orientation, before the job's turn. */
  width_px: number;
  height_px: number;
  /** As filed: RGB, grey, palette, CMYK, with or without alpha. */
  mode: string;
  profile_name: string;
  /** True where no usable profile is embedded and sRGB is assumed. */
  profile_assumed: boolean;
  notes: Note[];
}
/** A flat buffer that travels beside the reply. */
export interface Buffer {
  /** Its index in the list of buffers. */
  place: number;
  shape: number[];
  dtype: "uint8" | "uint16" | "uint32" | "float32";
  /**
   * For colours their state (`picture_encoded`: of the picture's own RGB space), for numbers their unit;
   * `half_floats` are the bits of 16-bit floats.
   */
  state:
    "srgb_encoded" | "picture_encoded" | "half_floats" | "lab_d50" | "mm" | "fraction" | "index" | "file";
}
/** No picture is open any more; what needs one is refused until one is. */
export interface CloseReply {}
/** The face that suits the open picture and what is loaded; the job's own face does not matter. */
export interface ProposeFaceParams {
  job: Job;
  unit: LengthUnit;
}
/** The largest round face of the picture's own shape. */
export interface ProposeFaceReply {
  /** Absent: what is loaded holds no face with these bars and turn-over. */
  face?: LargestFace;
}
/** A face that the sheet or roll holds. */
export interface LargestFace {
  width_mm: number;
  height_mm: number;
  /** Of the picture: what this face cannot show, 0 to 1. Under a percent unless the shape is too slender. */
  cropped_share: number;
  /** It is more than rounding takes: the face has not the picture's shape. */
  crops: boolean;
  /** The canvas lies on the sheet turned by a quarter. */
  turned: boolean;
}
/** The job to be shown. */
export interface ShowParams {
  /** About how many pixels the texture has. */
  preview_px?: number;
  job: Job;
  /** Send every part, whatever was sent before (a new page, or a worker started again). */
  fresh?: boolean;
}
/** What has changed on the stage. A part that is as it was before is left out. */
export interface ShowReply {
  job: Job;
  layout: Layout;
  bars: BarsReport;
  /** Of a group the panels' canvases, one below the other; face and inked are the first's. */
  texture?: Texture;
  /** Every panel folds alike; its texture coordinates are those of one canvas. */
  fold?: FoldReply;
  /** One where there is no group. */
  panels: PanelPlace[];
  worker_ms: number;
}
/** Layout, sheet and picture in figures. */
export interface Layout {
  /** Of one panel. */
  flat: FlatLayout;
  /** For one panel's canvas by itself. */
  sheet: SheetFit;
  /** Of a group; absent where not even one canvas fits. */
  plan?: SheetPlan;
  /** Of a group: what it takes of the wall, gaps and all. */
  wall_mm?: [number, number];
  use?: PictureUse;
  notes: Note[];
}
/** The flat canvas in mm, as printed (before it is stretched). */
export interface FlatLayout {
  canvas_mm: [number, number];
  inked_mm: [number, number];
  face_zone_mm: [number, number];
  /** From the canvas's left edge: 0, inked, left and right front edge, inked end, width. Six numbers. */
  columns_mm: number[];
  /** The same from the top edge. */
  rows_mm: number[];
  /** Where the canvas folds at the left and right back edges, from its left edge. */
  back_columns_mm: [number, number];
  back_rows_mm: [number, number];
  /** Of the canvas alone as trimmed, without its cut corners, from its weight per square metre. */
  weight_g: number;
}
/** Whether what is loaded in the printer holds the canvas. */
export interface SheetFit {
  fits: boolean;
  /** The canvas lies sideways on the sheet. */
  turned: boolean;
  /** Sheet less canvas, along the sheet's width and height; negative = shortfall. */
  slack_mm: [number, number];
  /** The same for the inked area within the unprintable margins. */
  ink_slack_mm: [number, number];
  /** The sheet's height, or what is cut from the roll. */
  length_mm: number;
  /** The canvas's upper-left corner on the sheet, from the sheet's upper-left corner. */
  position_mm: [number, number];
  /** The deepest bars that a job may have and the sheet holds, all else as it is; absent where none. */
  largest_depth_mm?: number;
  /** The widest turn-over likewise; absent where not even the bleed's width fits. */
  largest_turnover_mm?: number;
}
/**
 * All canvases of a group on as few sheets, or as little of the roll, as rows and columns allow.
 *
 * Exact for canvases that all lie the same way round; both orientations are tried.
 */
export interface SheetPlan {
  /** The canvases of each sheet; of a roll, of the one piece that is cut. */
  sheets: PlannedCanvas[][];
  /** All canvases lie turned by a quarter. */
  turned: boolean;
  /** The sheet's height, or what is cut from the roll for all of them. */
  length_mm: number;
}
/** One panel's canvas on its sheet. */
export interface PlannedCanvas {
  /** From 1. */
  panel: number;
  /** Its upper-left corner, from the sheet's upper-left corner. */
  position_mm: [number, number];
}
/** What becomes of the picture. */
export interface PictureUse {
  /** The window taken, in fractions of the turned picture: x, y, width, height. */
  crop: [number, number, number, number];
  /** The part of it under the face. */
  face_crop: [number, number, number, number];
  effective_ppi: number;
  cut_away_share: number;
  run_on_share: number;
}
/** What to order and what it comes to; of a group the lists are for all panels, the rest for one. */
export interface BarsReport {
  panels: number;
  /** All panels' bars, the longest first, mitred at both ends. */
  bars: Length[];
  mitre_degrees: number;
  /** A bar's width and depth. */
  section_mm: [number, number];
  /** The width is the job's own; otherwise the rule's. */
  section_is_given: boolean;
  /** All panels', the longest first; cut to the opening, what the joint takes comes on top. */
  braces: Length[];
  /** An upright one crosses a lying one; there both are halved. */
  braces_cross: boolean;
  brace_section_mm: [number, number];
  brace_rule: string;
  /** All panels'. */
  staples: number;
  staples_every_mm: number;
  /** Of one panel. */
  masses: Mass[];
  /** The whole panel: canvas, bars and all; lowest and highest. */
  panel_g: [number, number];
  /** The whole piece, all panels; lowest and highest. */
  whole_g: [number, number];
  /** As trimmed, all panels. */
  canvas_alone_g: number;
  /** Of one panel. */
  hanging: Hanging;
  /** From one panel's middle to the next one's, as they hang; 0 for one panel. */
  pitch_mm: number;
  cautions: string[];
}
/** So many pieces of wood of one length. */
export interface Length {
  /** A bar's outer side, which is its longer one; a brace between the bars. */
  length_mm: number;
  count: number;
}
/** What one part weighs. */
export interface Mass {
  part: string;
  low_g: number;
  high_g: number;
  /** Of the figure that sets most of it; what else counts says so in the reason. */
  origin: Origin;
  reason: string;
}
/** What one panel hangs by; forces from the heaviest that it may be. */
export interface Hanging {
  hooks: number;
  /** Of each hook: right of the panel's middle, and below its top edge. */
  hooks_mm: [number, number][];
  /** Of the two rings, measured alike. */
  rings_mm: [number, number][];
  /** Absent where the panel is too heavy for one by the rule, or where one would lie too flat. */
  wire?: Wire;
  /** Why there is none. */
  no_wire?: NoWire;
  safety_factor: number;
  /** What each ring must be rated for, the safety factor included. */
  ring_carries_kg: number;
  /** What each hook with its wall plug must be rated for, alike. */
  hook_carries_kg: number;
  /** What the wire must be rated for, alike; 0 without one. */
  wire_carries_kg: number;
}
/** The wire between the rings, drawn up at its hooks. */
export interface Wire {
  /** From ring to ring. */
  span_mm: number;
  /** Of the hooks above the rings. */
  rise_mm: number;
  /** Under load, without the ends that are wound round. */
  length_mm: number;
  /** From the heaviest that the panel may be, before the safety factor. */
  tension_n: number;
}
/** The flat canvas as pixels, turn-overs and all, row 0 at the top. */
export interface Texture {
  /** (height, width, 4), uint8, alpha 255; srgb_encoded, or picture_encoded in another RGB space. */
  pixels: Buffer;
  face: Box;
  inked: Box;
}
/** A rectangle of pixels, right and bottom excluded. */
export interface Box {
  left: number;
  top: number;
  right: number;
  bottom: number;
}
/** The canvas as a triangle mesh, at sampled positions from flat to folded. */
export interface FoldReply {
  stages: FoldStage[];
  bulk: Bulk[];
  /** The sampled positions, rising from 0 to 1; between two of them the page interpolates. */
  at: number[];
  /** (frames, vertices, 3), float32, mm. */
  positions: Buffer;
  /** (vertices, 2), float32, fraction of the texture from its top-left corner. */
  uv: Buffer;
  /** (triangles, 3), uint32, index; counter-clockwise seen from the print side. */
  triangles: Buffer;
  /** (segments, 2), uint32, index of two vertices: crease and cut lines, to be drawn on the flat sheet. */
  outlines: Buffer;
  /** The first so many outlines are creases, the others cuts. */
  crease_count: number;
  notes: Note[];
}
/** One stage of the folding; all are equally long. */
export interface FoldStage {
  name: string;
  /** What is done, in the printmaker's words. */
  label: string;
  /** Where it begins, from 0 to 1. */
  start: number;
  end: number;
  /** No rigid way through exists: the page shows its start, then its end. */
  hidden: boolean;
}
/** Layers of canvas at a place, for example the back corner, and their thickness. */
export interface Bulk {
  place: string;
  layers: number;
  thickness_mm: number;
}
/** Where one panel hangs, and which rows of the texture are its own. */
export interface PanelPlace {
  /** From 1, left to right or top to bottom. */
  number: number;
  /** Of its face, from the middle of the group: x right, y up. */
  centre_mm: [number, number];
  top_px: number;
  /** Excluded. */
  bottom_px: number;
}
/** Write the print file of a job. */
export interface PrintParams {
  job: Job;
  kind: FileKind;
  /** Of today, YYYY-MM-DD, for the text line; the core has no clock of its own. */
  date: string;
  /** Which of a group's panels. */
  panel?: number;
}
/** The written file, re-opened and measured. */
export interface PrintReply {
  report: FileReport;
  /** The file's bytes in order, each (n,), uint8, file. */
  parts: Buffer[];
  notes: Note[];
}
/** What was re-read from a written file. */
export interface FileReport {
  file: string;
  width_px: number;
  height_px: number;
  ppi: [number, number];
  size_mm: [number, number];
  profile_name: string;
  bytes: number;
  format: string;
  bits: number;
}
/**
 * A canvas profile's file name; its bytes travel as the call's buffer.
 *
 * Without a buffer and with the name illustrative-matte, the invented canvas that stands in.
 */
export interface ProfileParams {
  file: string;
}
/** What the profile is. */
export interface ProfileReply {
  /** For `colour.profile`. */
  file: string;
  description: string;
  /** An invented canvas, not a measured one: said wherever it is used. */
  illustration: boolean;
  device: string;
  version: string;
  white_lab: [number, number, number];
  black_lab: [number, number, number];
  /** Cubic Lab units. */
  gamut_volume: number;
  notes: Note[];
}
/** Tables for the screen, for a job's intent and bring-in. */
export interface LookParams {
  job: Job;
  viewing: Viewing;
  screen: Screen;
  /** With as many nodes as the print file's table has, which takes longer, where colours are brought in. */
  fine: boolean;
}
/** What turns the texture's values into what the screen shows; switching between views needs no call. */
export interface LookReply {
  nodes: number;
  /**
   * (nodes, nodes, nodes, 4) half floats, blue slowest: the proof on the screen, and how far it clips.
   * It is to be interpolated by tetrahedra.
   */
  printed: Buffer;
  /** (256, 4) float32: where each 8-bit value of red, green and blue lies, counted in nodes. */
  curve: Buffer;
  /** The picture as filed on the screen; absent where the texture's values are the screen's already. */
  filed?: Buffer;
  /** CIEDE2000 that 1 in the fourth channel stands for. */
  clip_full_de: number;
  /** (steps, 3) uint8, srgb_encoded: the clip map's colours, from nothing lost to scale_full_de. */
  scale: Buffer;
  scale_full_de: number;
}
/** What clips on a job's face and sides. */
export interface ClipParams {
  job: Job;
}
/** Where the picture leaves the canvas's gamut. */
export interface ClipReply {
  threshold_de: number;
  /** Of all that is seen of the piece, 0 to 1, after bringing in. */
  outside_share: number;
  /** Face, top, right, bottom, left. */
  parts: ClipPart[];
  /** At most eight, the largest first. */
  groups: ClipGroup[];
  /** (rows, columns) uint8 over the flat canvas: the group of each pixel, 0 where nothing clips. */
  labels: Buffer;
}
/** The face or one side; shares of its own pixels, 0 to 1. */
export interface ClipPart {
  name: string;
  share: number;
  chroma: number;
  shadow: number;
  highlight: number;
  mean_de: number;
  worst_de: number;
  /** Without bringing anything in. */
  share_before: number;
}
/** Clipped colours of about one hue. */
export interface ClipGroup {
  /** The label of its pixels. */
  number: number;
  name: string;
  share: number;
  /** #rrggbb, sRGB. */
  filed: string;
  printed: string;
  mean_de: number;
  worst_de: number;
  /** x, y, width, height in fractions of the flat canvas from its top-left corner. */
  place: [number, number, number, number];
}
/** The intents compared on a job's face and sides. */
export interface IntentsParams {
  job: Job;
}
/** Every intent's figures and a recommendation, which the user may overrule. */
export interface IntentsReply {
  rows: IntentRow[];
  /** A place in rows. */
  recommended: number;
  reason: string;
}
/** One intent; shares 0 to 1, differences CIEDE2000. */
export interface IntentRow {
  intent: Intent;
  black_point_compensation: boolean;
  label: string;
  /** Outside the gamut by more than the threshold, before bringing in. */
  outside_share: number;
  /** Of these the part whose tones and steps are no longer told apart in print. */
  flattened_share: number;
  mean_de: number;
  p95_de: number;
  shadow_loss: number;
  highlight_loss: number;
  hue_shift_deg: number;
  chroma_change: number;
}
/** The canvas's gamut and a job's colours in it. */
export interface SolidParams {
  job: Job;
}
/** CIELAB for D50, relative to the canvas's white. */
export interface SolidReply {
  /** (vertices, 3) float32. */
  lab: Buffer;
  /** (vertices, 3) uint8, srgb_encoded. */
  colours: Buffer;
  triangles: Buffer;
  /** (points, 3) float32: what the canvas is asked for. */
  point_lab: Buffer;
  point_printed_lab: Buffer;
  point_colours: Buffer;
  /** (points,) float32, of the picture. */
  point_share: Buffer;
  /** (points,) float32: CIEDE2000 by which it clips, 0 inside. */
  point_difference: Buffer;
  volume: number;
}
/** Two to four variants of one picture. */
export interface CompareParams {
  viewing?: Viewing;
  screen?: Screen;
  /** About how many pixels the largest texture has; all have the same resolution. */
  preview_px?: number;
  variants: [Variant, Variant] | [Variant, Variant, Variant] | [Variant, Variant, Variant, Variant];
}
/** One way to make the piece. */
export interface Variant {
  label: string;
  job: Job;
}
/** Variants under one light. What several of them share is sent once. */
export interface CompareReply {
  textures: Texture[];
  folds: FoldReply[];
  /** Looks may name the same buffers. */
  looks: LookReply[];
  variants: VariantReply[];
}
/** One variant's figures, and what of the reply's lists it shows. */
export interface VariantReply {
  label: string;
  job: Job;
  layout: Layout;
  /** Of the picture: cut away, 0 to 1. */
  lost_share: number;
  /** Of the canvas alone as trimmed, without its cut corners, all panels. */
  weight_g: number;
  /** Of the whole piece, all panels: lowest and highest. */
  whole_g: [number, number];
  /** Outside the gamut, of all that is seen of the piece, 0 to 1. */
  outside_share: number;
  panels: PanelPlace[];
  texture: number;
  /** On its texture. */
  inked: Box;
  /** Its texture coordinates are those of its texture. */
  fold: number;
  look: number;
}
/** What the picture holds beside each front edge. */
export interface EdgesParams {
  job: Job;
}
/** The four sides, and what to watch on them. */
export interface EdgesReport {
  /** Top, right, bottom, left. */
  sides: SideReport[];
  notes: Note[];
}
/** One side, judged from the picture beside its front edge; figures 0 to 1. */
export interface SideReport {
  side: Side;
  /** The fill that it has. */
  fill: Fill;
  /** How much fine detail and contrast the strip has. */
  busy: number;
  /** How plainly a mirror would show a shape twice. */
  doubled: number;
  /** How plainly a mirror would bend a line that meets the front edge at a slant. */
  broken: number;
  /** How plainly something distinct would go round the edge, or be cut by it, if the picture ran on. */
  cut: number;
  /** How plainly a mirror would turn slanted lines back. */
  chevrons: number;
  /** How plainly a mirror would show again what stands further in, over plain ground. */
  repeated: number;
  /** How much of its detail lines continued would draw out into streaks. */
  smeared: number;
  /** How much of the front edge lines continued would bend lines along. */
  bent: number;
  /** How much of the front edge cuts distinct things, which lines continued would show as stubs. */
  severed: number;
  /** How plainly its edge drawn out would show streaks. */
  streaked: number;
  /** Whether lines continued are a mirror here, since they would look no better. */
  mirrored: boolean;
  /** A fill that would do better; absent where its own does well. */
  better?: Fill;
  /** The figure that its own fill shows; empty where nothing is to be seen. */
  fault: string;
  /** Why, with the figures. */
  reason: string;
  /** A move of the crop that does better; absent where nothing is cut, or no small move frees the edge. */
  move?: CropMove;
}
/** A move of the crop after which an edge cuts no distinct thing. */
export interface CropMove {
  /** To the right on the face; negative to the left. */
  right_mm: number;
  /** Downwards on the face; negative upwards. */
  down_mm: number;
  /** The picture's crop after it. */
  crop: Crop;
}
/** Every option of a choice on a job's own canvas. */
export interface ChoicesParams {
  job: Job;
  kind: ChoiceKind;
  /** Which fills to show, where fills are chosen; else none. */
  fills: Fill[];
  /** The side whose own fill is chosen. */
  side?: Side;
  /** What of the canvas the screen shows, where intents are chosen. */
  viewing?: Viewing;
}
/** The options of the kind that was asked for; the other lists are empty. */
export interface ChoicesReply {
  fills: FillOption[];
  finishes: FinishOption[];
  intents: IntentOption[];
}
/** A side fill; shares of the picture, 0 to 1. */
export interface FillOption {
  fill: Fill;
  /** (rows, columns, 4), uint8, srgb_encoded: a corner of the folded canvas. Absent where it is refused. */
  picture?: Buffer;
  cut_away_share: number;
  /** Gone from the face on to the sides. */
  run_on_share: number;
  refused?: Refused;
}
/** Why this canvas cannot have an option. */
export interface Refused {
  field: string;
  message: string;
  remedy: string;
}
/** A corner finish. */
export interface FinishOption {
  finish: Finish;
  /** (rows, columns, 4), uint8, srgb_encoded: the corner done, from the front. */
  folded?: Buffer;
  /** The same on the way, from behind. */
  folding?: Buffer;
  bulk: Bulk[];
  refused?: Refused;
}
/** A rendering intent with the job's black point compensation; shares 0 to 1, differences CIEDE2000. */
export interface IntentOption {
  intent: Intent;
  /** (rows, columns, 4), uint8, srgb_encoded: the part of the face that printing changes most. */
  picture: Buffer;
  flattened_share: number;
  mean_de: number;
  p95_de: number;
}
/** A part of the print file at its own pixels, without and with sharpening. */
export interface DetailParams {
  job: Job;
  width_px: number;
  height_px: number;
}
/** The part of the face that has most edges, one pixel for each of the print file's. */
export interface DetailReply {
  /** (rows, columns, 4), uint8, srgb_encoded. */
  plain: Buffer;
  /** The same with the job's sharpening. */
  sharpened: Buffer;
}
/** A 3D model of the folded canvas, with the fold as an animation. */
export interface ModelParams {
  colours?: ModelColours;
  /** About how many pixels its textures have together, and no more. */
  texture_px?: number;
  job: Job;
}
/** The written model, re-opened and measured. */
export interface ModelReply {
  report: ModelReport;
  /** The file's bytes in order, each (n,), uint8, file. */
  parts: Buffer[];
  notes: Note[];
}
/** What was re-read from a written model. */
export interface ModelReport {
  file: string;
  bytes: number;
  vertices: number;
  triangles: number;
  /** Width, height and depth of the folded canvas. */
  size_mm: [number, number, number];
  texture_px: [number, number];
  animation_s: number;
}
/** Frames of the piece being turned; their pixels travel as the call's buffer, RGB, 8 bits, one by one. */
export interface TurntableParams {
  /** The job's name, for the file's. */
  name: string;
  kind: TurntableKind;
  width_px: number;
  height_px: number;
  frames: number;
  frame_ms: number;
}
/** The written animation, re-opened and measured. */
export interface TurntableReply {
  report: TurntableReport;
  parts: Buffer[];
}
/** What was re-read from a written animation. */
export interface TurntableReport {
  file: string;
  bytes: number;
  width_px: number;
  height_px: number;
  frames: number;
  seconds: number;
}
/** The page for the client; the viewer's program travels as the call's buffer. */
export interface ClientParams {
  surroundings?: Surroundings;
  /** A few words to the client. */
  message?: string;
  /** Of today, YYYY-MM-DD. */
  date: string;
  /** Absent: no photograph goes into the page. */
  wall?: ClientWall;
  variants:
    [Variant] | [Variant, Variant] | [Variant, Variant, Variant] | [Variant, Variant, Variant, Variant];
}
/** The room in which a piece is looked at; it changes nothing of the piece itself. */
export interface Surroundings {
  wall: Wall;
  light_from: LightFrom;
  /** Colour temperature of the light; at 5000 K the face is seen as the proof says. */
  light_kelvin: number;
  beside: Beside;
  /** Even light without colour or shade on the piece: a printed patch measures what the proof says. */
  flat_light: boolean;
}
/** The open photograph of the client's wall, a reduced copy of which goes into the page. */
export interface ClientWall {
  references: [Reference, ...Reference[]];
  /**
   * The middle of the face on the wall, in mm from the first reference's lower-left corner: x right, y up.
   * Of a group the middle of all panels.
   */
  at_mm: [number, number];
  colours: ModelColours;
  /** How much of the room's brightness and tint the piece takes on. */
  room_light: number;
  /** How strong the piece's shadow on the wall is. */
  shadow: number;
  /** Where the light comes from, degrees clockwise from above; without it the wall tells. */
  light_from_deg?: number;
  /** The client may move the piece there. */
  is_free: boolean;
  /** The floor's height on the wall, mm from the first reference's lower-left corner; usually negative. */
  floor_mm?: number;
}
/** A rectangle of known size on the wall, and where its corners lie in the photograph. */
export interface Reference {
  /** a4 or letter, alone or with -upright or -lying behind it; or WIDTHxHEIGHT in mm. */
  size: string;
  /**
   * Upper left, upper right, lower right, lower left, in pixels of the upright photograph from its
   * upper-left corner; without them they are looked for.
   */
  corners?: [[number, number], [number, number], [number, number], [number, number]];
}
/** The written page, re-opened and checked. */
export interface ClientReply {
  report: ClientReport;
  parts: Buffer[];
  notes: Note[];
}
/** What was re-read from a written client page. */
export interface ClientReport {
  file: string;
  bytes: number;
  variants: number;
}
/** The bundle's bytes travel as the call's buffer. */
export interface OpenBundleParams {}
/** The job and the files of a bundle. */
export interface OpenBundleReply {
  job: Job;
  files: BundledFileReply[];
  /** What of an earlier version's job is worth a look. */
  notes: Note[];
}
/** A file of a bundle. */
export interface BundledFileReply {
  role: Role;
  file: string;
  /** Its bytes in order, each (n,), uint8, file. */
  parts: Buffer[];
}
/** Write a bundle of a job and its files. */
export interface SaveBundleParams {
  job: Job;
  files: GivenFile[];
}
/** A file of the job; its bytes lie in the call's buffer, behind those of the file before it. */
export interface GivenFile {
  role: Role;
  file: string;
  bytes: number;
}
/** The bundle, opened again and found to hold what was meant. */
export interface SaveBundleReply {
  report: BundleReport;
  /** The file's bytes in order, each (n,), uint8, file. */
  parts: Buffer[];
}
/** What was found in a written bundle. */
export interface BundleReport {
  file: string;
  bytes: number;
  files: BundledFileName[];
}
/** One file in a bundle. */
export interface BundledFileName {
  role: Role;
  name: string;
}
/** The ticket that goes with the piece. */
export interface TicketParams {
  paper?: Paper;
  /** Of today, YYYY-MM-DD; the core has no clock of its own. */
  date: string;
  job: Job;
}
/** The written ticket, re-opened and measured. */
export interface TicketReply {
  report: TicketReport;
  parts: Buffer[];
  notes: Note[];
}
/** What was re-read from a written ticket. */
export interface TicketReport {
  file: string;
  bytes: number;
  paper: Paper;
  pages: number;
}
/** The open job, how many of it, and what is chosen. */
export interface PlanParams {
  job: Job;
  copies?: number;
  options: PlanOptions;
}
/** How pieces are laid on sheets and rolls. */
export interface PlanOptions {
  /** The sheets and rolls to choose from. None: each job lies on its own sheet or roll. */
  stocks: Stock[];
  /** Canvas left between two pieces. */
  gap_mm: number;
  /** Width that a cut takes; it passes within the gap. */
  knife_mm: number;
  /** Whether pieces may lie turned by a quarter. */
  turning: Turning;
  /** For sheets and rolls without a price of their own. */
  price_per_m2?: number;
  /** Pieces that lie where a person has put them. */
  pins: Pin[];
}
/** One kind of sheet or roll that the shop has. */
export interface Stock {
  /** Empty: its size. */
  name: string;
  /** Of the sheet, or of the roll. */
  width_mm: number;
  /** Absent: a roll. */
  height_mm?: number;
  /** Unprintable margins: top, right, bottom, left. */
  margin_mm: [number, number, number, number];
  /** Of a roll: the longest piece that is printed at once. Absent: 20 m. */
  longest_mm?: number;
  /** Your own price of a square metre, in any money. */
  price_per_m2?: number;
}
/** A piece that lies where a person has put it. */
export interface Pin {
  /** The piece's name. */
  piece: string;
  /** From 1. */
  sheet: number;
  /** Of its left edge, from the sheet's left edge. */
  x_mm: number;
  /** Of its top edge, from the sheet's top edge. */
  y_mm: number;
  /** It lies turned by a quarter. */
  turned: boolean;
}
/** All canvases on sheets and rolls. */
export interface Plan {
  sheets: PlannedSheet[];
  figures: PlanFigures;
  notes: Note[];
}
/** One sheet, or one length of a roll, with its canvases and cuts. */
export interface PlannedSheet {
  /** From 1. */
  number: number;
  /** Name of the kind of sheet or roll. */
  stock: string;
  is_roll: boolean;
  width_mm: number;
  /** Of the sheet, or what is cut from the roll. */
  height_mm: number;
  /** Unprintable margins: top, right, bottom, left. */
  margin_mm: [number, number, number, number];
  /** From top to bottom, then from left to right. */
  pieces: PlacedPiece[];
  /** In order. After the last one every canvas has its size. */
  cuts: PlannedCut[];
  /** Area of its canvases. */
  used_m2: number;
  /** What is left of it. */
  waste_m2: number;
  /** In the money of the price; absent without a price. */
  cost?: number;
}
/** One canvas on its sheet. */
export interface PlacedPiece {
  /** Of the piece; no two pieces of a plan share it. */
  name: string;
  /** Name of its job. */
  job: string;
  /** From 1; 1 where the job has no group. */
  panel: number;
  /** From 1. */
  copy_number: number;
  /** Of its left edge, as it lies. */
  x_mm: number;
  /** Of its top edge, as it lies. */
  y_mm: number;
  /** As it lies: of a turned canvas its height. */
  width_mm: number;
  /** As it lies. */
  height_mm: number;
  /** It lies turned by a quarter. */
  turned: boolean;
  /** Its place was chosen by hand. */
  pinned: boolean;
}
/** One straight cut, from edge to edge of what the cuts before it left as one. */
export interface PlannedCut {
  /** From 1, in the order of cutting. */
  number: number;
  way: CutWay;
  /** (x, y) of the middle of the knife's path at its left or upper end. */
  start_mm: [number, number];
  /** The same at its right or lower end. */
  end_mm: [number, number];
  /** It takes waste off a part; otherwise it parts pieces from pieces. */
  trims: boolean;
}
/** A whole plan in figures. */
export interface PlanFigures {
  pieces: number;
  /** Sheets, and lengths cut from rolls. */
  sheets: number;
  /** Of all lengths that are cut from rolls; 0 without a roll. */
  roll_length_mm: number;
  /** Area of the sheets, and of what is cut from rolls. */
  stock_m2: number;
  used_m2: number;
  waste_m2: number;
  /** Of the stock, 0 to 1. */
  waste_share: number;
  /** Stock that rows and columns take, each job on sheets of its own; without pins a plan takes no more. */
  rows_m2: number;
  /** Stock that no plan can go below: a lower bound, which may be out of reach. */
  least_m2: number;
  cuts: number;
  /** In the money of the price; absent where a sheet or roll has no price. */
  cost?: number;
}
/** Make the proof strip of a job. */
export interface StripParams {
  job: Job;
  /** Of today, YYYY-MM-DD. */
  date: string;
}
/** The written strip, re-opened and measured, and its values. */
export interface StripReply {
  report: StripReport;
  /** The strip's bytes in order, each (n,), uint8, file. */
  parts: Buffer[];
  /** What the profile promises for its patches, CGATS text. */
  values: string;
  notes: Note[];
}
/** What was re-read from a written strip, and what it shows. */
export interface StripReport {
  file: string;
  width_px: number;
  height_px: number;
  ppi: [number, number];
  size_mm: [number, number];
  profile_name: string;
  bytes: number;
  format: string;
  bits: number;
  /** Printed on the strip and written beside its values. */
  strip_id: string;
  values_file: string;
  patches: StripPatch[];
}
/** A patch and the colour that the profile promises for it. */
export interface StripPatch {
  id: string;
  name: string;
  /** Lab for D50, as a device measures it. */
  lab: [number, number, number];
}
/** The values that were saved beside a strip; those that a device measured travel as the call's buffer. */
export interface MeasureStripParams {
  expected: string;
}
/** A measured strip against the profile's promise; differences are CIEDE2000. */
export interface StripCheck {
  strip_id: string;
  /** The worst first. */
  patches: MeasuredPatch[];
  mean_de: number;
  worst_de: number;
  /** Of bare canvas and the greys alone. */
  greys_mean_de: number;
  /** The values differ so much that they may be another strip's. */
  doubtful: boolean;
}
/** A patch: what the profile promises, what was measured, and how far they are apart. */
export interface MeasuredPatch {
  id: string;
  name: string;
  expected_lab: [number, number, number];
  measured_lab: [number, number, number];
  /** CIEDE2000. */
  de: number;
}
/** The text that a client page gave, for the job that it was made from. */
export interface AnswerParams {
  job: Job;
  text: string;
}
/** The job with what the client picked, and with their words. */
export interface AnswerReply {
  job: Job;
  /** The answer's first sentence. */
  chosen: string;
  /** The fields that the answer changed besides `answer`, dotted. */
  changed: string[];
  notes: Note[];
}
/** Put the entries of a file among one's own. */
export interface OpenPresetsParams {
  /** Of the file. */
  text: string;
  presets: Presets;
}
/** All of a user's own sizes and prices. */
export interface Presets {
  /** Of the file. */
  version: 1;
  sheets: SheetPreset[];
  rolls: RollPreset[];
  bars: BarsPreset[];
  canvases: CanvasPreset[];
}
/** A sheet. */
export interface SheetPreset {
  /** By it the entry is chosen; no two entries of one kind share it. */
  name: string;
  width_mm: number;
  height_mm: number;
  /** Unprintable margins: top, right, bottom, left. */
  margin_mm: [number, number, number, number];
  /** Your own price of a square metre, in any money. */
  price_per_m2?: number;
}
/** A roll. */
export interface RollPreset {
  /** By it the entry is chosen; no two entries of one kind share it. */
  name: string;
  width_mm: number;
  /** Of the canvas on it: nothing longer is planned on it. Absent: not known. */
  length_mm?: number;
  /** Unprintable margins: top, right, bottom, left. */
  margin_mm: [number, number, number, number];
  /** Your own price of a square metre, in any money. */
  price_per_m2?: number;
}
/** Stretcher bars of one section. */
export interface BarsPreset {
  /** By it the entry is chosen; no two entries of one kind share it. */
  name: string;
  /** How far the bars stand off the wall. */
  depth_mm: number;
  /** Of a bar, seen from the back. Absent: by the rule that a job without it follows. */
  width_mm?: number;
  wood: Wood;
  /** Where you know it; then the kind of wood does not count. */
  density_kg_m3?: number;
  /** Your own price of a metre of bar, in any money. */
  price_per_m?: number;
}
/** A canvas and its profile. */
export interface CanvasPreset {
  /** By it the entry is chosen; no two entries of one kind share it. */
  name: string;
  thickness_mm: number;
  weight_gsm: number;
  /** How much it grows across and down when it is pulled tight. */
  stretch_percent: [number, number];
  /** The file name of its profile. Absent: the job keeps its own. */
  profile?: string;
}
/** Presets with those of a file among them. */
export interface JoinedPresets {
  presets: Presets;
  /** Entries that are new. */
  added: number;
  /** Entries whose name was known and whose values were others. */
  replaced: number;
}
/** Take an entry into a job. */
export interface TakePresetParams {
  job: Job;
  presets: Presets;
  kind: PresetKind;
  name: string;
}
/** The job with it. */
export interface TakePresetReply {
  job: Job;
}
/** Keep what the job has under a name. */
export interface KeepPresetParams {
  job: Job;
  presets: Presets;
  kind: PresetKind;
  name: string;
  /** Of a square metre of a sheet or roll, of a metre of bars. */
  price?: number;
}
/** Checked presets. */
export interface PresetsReply {
  presets: Presets;
}
/** The photograph's file name; its bytes travel as the call's buffer. */
export interface OpenWallParams {
  file: string;
  /** Of a copy that was kept before, as the reply told it then. */
  focal_px?: number;
}
/** The photograph as it is kept. */
export interface OpenWallReply {
  file: string;
  /** Width and height of the copy; all places are in its pixels, from its upper-left corner. */
  photo_px: [number, number];
  /** By the file of the photograph; absent where that tells none. */
  focal_px?: number;
  /** The copy's bytes in order, each (n,), uint8, file: a JPEG without metadata. */
  parts: Buffer[];
  notes: Note[];
}
/** A reference to look for; with corners, to move them to the edges that lie near. */
export interface FindReferenceParams {
  reference: Reference;
}
/** Its corners, and which way round it hangs. */
export interface FindReferenceReply {
  corners: [[number, number], [number, number], [number, number], [number, number]];
  size_mm: [number, number];
  /** The corners lie where edges of the photograph meet. */
  snapped: boolean;
}
/** The piece, the marked references and the place. */
export interface MeasureWallParams {
  references: [Reference, ...Reference[]];
  /**
   * The middle of the face on the wall, in mm from the first reference's lower-left corner: x right, y up.
   * Of a group the middle of all panels.
   */
  at_mm: [number, number];
  colours?: ModelColours;
  /** How much of the room's brightness and tint the piece takes on. */
  room_light?: number;
  /** How strong the piece's shadow on the wall is. */
  shadow?: number;
  /** Where the light comes from, degrees clockwise from above; without it the wall tells. */
  light_from_deg?: number;
  job: Job;
}
/** The wall, the camera, the light. */
export interface MeasureWallReply {
  report: WallReport;
  /** From (x, y, z, 1) in mm on the wall, z towards the room, to pixels of the photograph. */
  camera: [
    [number, number, number, number],
    [number, number, number, number],
    [number, number, number, number]
  ];
  light: WallLight;
  notes: Note[];
}
/** The wall, the camera, and where the piece is seen. */
export interface WallReport {
  /**
   * The homography from mm on the wall (x right, y up, from the first reference's lower-left corner) to
   * pixels of the full upright photograph, whose upper-left corner is 0, 0.
   */
  wall_to_photo: [[number, number, number], [number, number, number], [number, number, number]];
  focal_px: number;
  focal_from: FocalFrom;
  /** How far the camera's axis is off the wall's normal. */
  off_normal_deg: number;
  /** Width and height of the upright photograph. */
  photo_px: [number, number];
  references_mm: [number, number][];
  /** The references' corners as given, or as found: upper left, upper right, lower right, lower left. */
  corners_px: [[number, number], [number, number], [number, number], [number, number]][];
  /**
   * The corners of the front of the piece, which stands off the wall by the bar depth, in the same order;
   * of a group those of the whole group's front.
   */
  face_px: [[number, number], [number, number], [number, number], [number, number]];
  /** The corners of each panel's front. */
  panels_px: [[number, number], [number, number], [number, number], [number, number]][];
  /**
   * Of the width: within so much it is right 95 times of 100, when each corner is off by a pixel (standard
   * deviation, each way).
   */
  uncertainty_percent: number;
  width_within_mm: number;
  height_within_mm: number;
  /** Where the shadow takes the light to come from, degrees clockwise from above. */
  light_from_deg: number;
}
/** How a white surface looks in the photograph: at its middle, and how the light falls off. */
export interface WallLight {
  /** Linear sRGB. */
  white: [number, number, number];
  middle_mm: [number, number];
  /** The logarithm of the light by mm, to the right and up. */
  fall: [number, number];
  /** The light differs from that at the middle by no more. */
  most_factor: number;
}
/** The canvas that the page draws on the wall. */
export interface WallCanvasParams {
  job: Job;
  colours?: ModelColours;
}
/** The flat canvas in sRGB; of a group the panels' canvases, one below the other. */
export interface WallCanvasReply {
  texture: Texture;
}
/**
 * A still of the piece on the wall, at the photograph's size.
 *
 * Where something stands in front of it, a mask of that size travels as the call's buffer, white there.
 */
export interface HangParams {
  references: [Reference, ...Reference[]];
  /**
   * The middle of the face on the wall, in mm from the first reference's lower-left corner: x right, y up.
   * Of a group the middle of all panels.
   */
  at_mm: [number, number];
  colours?: ModelColours;
  /** How much of the room's brightness and tint the piece takes on. */
  room_light?: number;
  /** How strong the piece's shadow on the wall is. */
  shadow?: number;
  /** Where the light comes from, degrees clockwise from above; without it the wall tells. */
  light_from_deg?: number;
  job: Job;
}
/** The written still, opened again. */
export interface HangReply {
  report: StillReport;
  /** The file's bytes in order, each (n,), uint8, file. */
  parts: Buffer[];
  notes: Note[];
}
/** The same, with the written still as it was opened again. */
export interface StillReport {
  /**
   * The homography from mm on the wall (x right, y up, from the first reference's lower-left corner) to
   * pixels of the full upright photograph, whose upper-left corner is 0, 0.
   */
  wall_to_photo: [[number, number, number], [number, number, number], [number, number, number]];
  focal_px: number;
  focal_from: FocalFrom;
  /** How far the camera's axis is off the wall's normal. */
  off_normal_deg: number;
  /** Width and height of the upright photograph. */
  photo_px: [number, number];
  references_mm: [number, number][];
  /** The references' corners as given, or as found: upper left, upper right, lower right, lower left. */
  corners_px: [[number, number], [number, number], [number, number], [number, number]][];
  /**
   * The corners of the front of the piece, which stands off the wall by the bar depth, in the same order;
   * of a group those of the whole group's front.
   */
  face_px: [[number, number], [number, number], [number, number], [number, number]];
  /** The corners of each panel's front. */
  panels_px: [[number, number], [number, number], [number, number], [number, number]][];
  /**
   * Of the width: within so much it is right 95 times of 100, when each corner is off by a pixel (standard
   * deviation, each way).
   */
  uncertainty_percent: number;
  width_within_mm: number;
  height_within_mm: number;
  /** Where the shadow takes the light to come from, degrees clockwise from above. */
  light_from_deg: number;
  file: string;
  bytes: number;
  still_px: [number, number];
}
export interface Progress {
  done: number;
  label: string;
}
/** Why a call failed. */
export interface ErrorReply {
  /** The error's own word; `crash` where the core itself failed. */
  code: string;
  field: string;
  expected: string;
  got: string;
  remedy: string;
  message: string;
  /** The values in these texts by name, the same in every language; words are the English ones. */
  values: {
    [k: string]: boolean | number | string;
  };
}
