// A job and a layout for the page's tests; the figures are those of the contract's defaults.
import type { BarsReport, Job, Layout } from "../../../web/src/contract/types";

export const JOB: Job = {
  version: 2,
  name: "Low tide",
  client: "",
  notes: "",
  answer: "",
  picture: { file: "tide.jpg", sha256: "", turn: 0, enlarging: "photograph" },
  face: { width_mm: 210, height_mm: 297 },
  bars: { depth_mm: 20, wood: "unknown" },
  group: { panels: 1, gap_mm: 30, hung: "across", across_gap: "behind" },
  wrap: {
    turnover_mm: 25,
    ink_over_mm: 6,
    finish: "tucked",
    over: "top-bottom",
    corners: "whole",
    setback_mm: 0,
    tab_mm: 10,
  },
  sides: { fill: "mirror", blur_mm: 0, band_mm: 3, colour: "edge" },
  sheet: { width_mm: 329, height_mm: 483, margin_mm: [3, 3, 3, 3] },
  canvas: {
    thickness_mm: 0.45,
    weight_gsm: 380,
    stretch_percent: [0, 0],
    coated: false,
  },
  colour: {
    profile: "illustrative-matte",
    intent: "relative",
    black_point_compensation: true,
    clip_threshold_de: 2,
    bring_in: 0,
  },
  print: { ppi: 300, convert: "keep", bits: 8, marks: true, sharpening: 0 },
};

// Derived: canvas = face + 2 x 0.45 + 2 x (20 + 25): 300.9 x 387.9; slack 329 - 300.9 = 28.1, 483 - 387.9 = 95.1.
export const LAYOUT: Layout = {
  flat: {
    canvas_mm: [300.9, 387.9],
    inked_mm: [262.9, 349.9],
    face_zone_mm: [210.9, 297.9],
    columns_mm: [0, 19, 45, 255.9, 281.9, 300.9],
    rows_mm: [0, 19, 45, 342.9, 368.9, 387.9],
    back_columns_mm: [25, 275.9],
    back_rows_mm: [25, 362.9],
    weight_g: 44.4,
  },
  sheet: {
    fits: true,
    turned: false,
    slack_mm: [28.1, 95.1],
    ink_slack_mm: [60.1, 127.1],
    length_mm: 483,
    position_mm: [14.05, 47.55],
    largest_depth_mm: 34.05,
    largest_turnover_mm: 39.05,
  },
  use: {
    crop: [0.1, 0, 0.8, 1],
    face_crop: [0.1, 0, 0.8, 1],
    effective_ppi: 163.4,
    cut_away_share: 0.2,
    run_on_share: 0,
  },
  notes: [],
};

// Derived by the core's rules for this job, rounded: bars of 40 x 20 mm in section, one hook.
export const BARS: BarsReport = {
  panels: 1,
  bars: [
    { length_mm: 297, count: 2 },
    { length_mm: 210, count: 2 },
  ],
  mitre_degrees: 45,
  section_mm: [40, 20],
  section_is_given: false,
  braces: [],
  braces_cross: false,
  brace_section_mm: [35, 11],
  brace_rule: "no stretch of a bar over 600 mm goes without a brace (common practice)",
  staples: 22,
  staples_every_mm: 50,
  masses: [
    {
      part: "canvas",
      low_g: 44.4,
      high_g: 44.4,
      origin: "given",
      reason: "as trimmed, at 380 g/m2",
    },
    {
      part: "rings and wire",
      low_g: 15,
      high_g: 60,
      origin: "from memory",
      reason: "with their screws",
    },
  ],
  panel_g: [268.2, 598.9],
  whole_g: [268.2, 598.9],
  canvas_alone_g: 44.4,
  pitch_mm: 0,
  hanging: {
    hooks: 1,
    hooks_mm: [[0, 84.6]],
    rings_mm: [
      [-80.2, 99],
      [80.2, 99],
    ],
    wire: { span_mm: 160.4, rise_mm: 14.4, length_mm: 163, tension_n: 16.6 },
    safety_factor: 4,
    ring_carries_kg: 6.76,
    hook_carries_kg: 2.4,
    wire_carries_kg: 6.76,
  },
  cautions: ["Weigh the finished piece."],
};
