// A job and a layout for the page's tests; the figures are those of the contract's defaults.
import type { Job, Layout } from "../../../web/src/contract/types";

export const JOB: Job = {
  version: 2,
  name: "Low tide",
  client: "",
  notes: "",
  picture: { file: "tide.jpg", sha256: "", turn: 0, enlarging: "photograph" },
  face: { width_mm: 210, height_mm: 297 },
  bars: { depth_mm: 20 },
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
  canvas: { thickness_mm: 0.45, weight_gsm: 380, stretch_percent: [0, 0] },
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
