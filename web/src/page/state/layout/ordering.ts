// Bars and fittings to order, weights and hanging, as rows of text. Pure.
import type { BarsReport, Hanging, Length } from "../../../contract/types";
import { lengthShown, sizeShown, type Unit } from "../../../units";

/** One row of the table. */
export interface OrderRow {
  readonly name: string;
  readonly head: string;
  /** A list has a line for each item. */
  readonly text: string;
  /** Where it comes from, or its rule. */
  readonly remark?: string;
}

/** A range of masses, rounded outwards; in grams under a kilogram. */
export function massShown([low, high]: readonly [number, number]): string {
  if (high >= 1000) {
    const [from, to] = [(Math.floor(low / 100) / 10).toFixed(1), (Math.ceil(high / 100) / 10).toFixed(1)];
    return from === to ? `${to} kg` : `${from} to ${to} kg`;
  }
  if (high - low < 1) return `${Math.round(high)} g`;
  const step = high < 100 ? 1 : 10;
  return `${Math.floor(low / step) * step} to ${Math.ceil(high / step) * step} g`;
}

/** What to order: bars, braces, staples. */
export function orderRows(report: BarsReport, unit: Unit): readonly OrderRow[] {
  const [width, depth] = report.section_mm;
  const [across, deep] = report.brace_section_mm;
  const rule = report.section_is_given ? "width as given" : "width: common practice";
  return [
    {
      name: "bars",
      head: "Bars",
      text: listed(report.bars, unit),
      remark: `${sizeShown(width, depth, unit)} in section (${rule}); lengths of the outer side, both ends mitred ${report.mitre_degrees}°`,
    },
    {
      name: "braces",
      head: "Braces",
      text: report.braces.length === 0 ? "none" : listed(report.braces, unit),
      remark:
        report.braces.length === 0
          ? report.brace_rule
          : `${sizeShown(across, deep, unit)} in section, cut to the opening; ${report.brace_rule}`,
    },
    {
      name: "staples",
      head: "Staples",
      text: String(report.staples),
      remark: `at most ${lengthShown(report.staples_every_mm, unit)} apart (common practice)`,
    },
  ];
}

/** What it weighs: the whole piece, then part by part of one panel. */
export function weightRows(report: BarsReport): readonly OrderRow[] {
  const of = report.panels > 1 ? `all ${report.panels} panels; one weighs ${massShown(report.panel_g)}` : undefined;
  return [
    {
      name: "whole",
      head: "Whole piece",
      text: massShown(report.whole_g),
      ...(of === undefined ? {} : { remark: of }),
    },
    ...report.masses.map(({ part, low_g, high_g, origin, reason }) => ({
      name: `mass-${part.replaceAll(" ", "-")}`,
      head: part === "canvas" ? "Canvas alone" : part.charAt(0).toUpperCase() + part.slice(1),
      text: massShown([low_g, high_g]),
      remark: `${origin}: ${reason.replaceAll("m2", "m²").replaceAll("m3", "m³")}`,
    })),
  ];
}

/** What one panel hangs by. */
export function hangingRows(on: Hanging, unit: Unit): readonly OrderRow[] {
  const [first, last] = [on.hooks_mm[0], on.hooks_mm.at(-1)];
  const down = lengthShown(first?.[1] ?? 0, unit);
  const apart = lengthShown((last?.[0] ?? 0) - (first?.[0] ?? 0), unit);
  const rings = [on.rings_mm[0], on.rings_mm[1]];
  const wide = lengthShown((rings[1]?.[0] ?? 0) - (rings[0]?.[0] ?? 0), unit);
  const wire: OrderRow =
    on.wire === undefined
      ? {
          name: "wire",
          head: "Wire",
          text: "none",
          remark: "too heavy for one (common practice): hang it from its rings",
        }
      : {
          name: "wire",
          head: "Wire",
          text: `rated ${on.wire_carries_kg.toFixed(1)} kg`,
          remark: `drawn up ${lengthShown(on.wire.rise_mm, unit)} it pulls ${on.wire.tension_n.toFixed(1)} N (derived)`,
        };
  return [
    {
      name: "hooks",
      head: on.hooks === 1 ? "1 hook" : `${on.hooks} hooks`,
      text: `${on.hooks === 1 ? "" : "each "}rated ${on.hook_carries_kg.toFixed(1)} kg`,
      remark: `${on.hooks === 1 ? "in the middle" : `${apart} apart`}, ${down} below the top edge`,
    },
    {
      name: "rings",
      head: "2 rings",
      text: `each rated ${on.ring_carries_kg.toFixed(1)} kg`,
      remark: `${wide} apart, ${lengthShown(rings[0]?.[1] ?? 0, unit)} below the top edge`,
    },
    wire,
  ];
}

function listed(lengths: readonly Length[], unit: Unit): string {
  return lengths.map(({ count, length_mm }) => `${count} × ${lengthShown(length_mm, unit)}`).join(",\n");
}
