// Bars and fittings to order, weights and hanging, as rows of text. Pure.
import rules from "../../../contract/bar_rules.json";
import type { BarsReport, Hanging, Length } from "../../../contract/types";
import { inUnit, lengthShown, sizeShown, type Unit } from "../../../units";
import { capitalised } from "../page/fields";
import { saidAgain, say } from "../../../speech/on_page";

/** One row of the table. */
export interface OrderRow {
  readonly name: string;
  readonly head: string;
  /** A list has a line for each item. */
  readonly text: string;
  /** Where it comes from, or its rule. */
  readonly remark?: string;
}

/** A range of masses, rounded outwards; in grams where it and the heaviest beside it are under a kilogram. */
export function massShown([low, high]: readonly [number, number], heaviest = high): string {
  if (Math.max(high, heaviest) >= 1000) {
    // One mass, which is known: no range comes of rounding it.
    if (high - low < 1) return say("{to} kg", { to: (high / 1000).toFixed(1) });
    const [from, to] = [(Math.floor(low / 100) / 10).toFixed(1), (Math.ceil(high / 100) / 10).toFixed(1)];
    return from === to ? say("{to} kg", { to }) : say("{from} to {to} kg", { from, to });
  }
  if (high - low < 1) return say("{high} g", { high: Math.round(high) });
  const step = high < 100 ? 1 : 10;
  return say("{low} to {ceil} g", { low: Math.floor(low / step) * step, ceil: Math.ceil(high / step) * step });
}

/** What to order: bars, braces, staples. */
export function orderRows(report: BarsReport, unit: Unit): readonly OrderRow[] {
  const [width, depth] = report.section_mm;
  const [across, deep] = report.brace_section_mm;
  const rule = report.section_is_given ? say("width as given") : say("width: common practice");
  return [
    {
      name: "bars",
      head: say("Bars"),
      text: listed(report.bars, unit),
      remark: say("{width} in section ({rule}); lengths of the outer side, both ends mitred {mitre_degrees}°", {
        width: sizeShown(width, depth, unit),
        rule,
        mitre_degrees: report.mitre_degrees,
      }),
    },
    {
      name: "braces",
      head: say("Braces"),
      text: report.braces.length === 0 ? say("none") : listed(report.braces, unit),
      remark:
        report.braces.length === 0
          ? report.brace_rule
          : say("{across} in section, cut to the opening{crossed}; {brace_rule}", {
              across: sizeShown(across, deep, unit),
              crossed: report.braces_cross ? say("; where two cross, halve both") : "",
              brace_rule: report.brace_rule,
            }),
    },
    {
      name: "staples",
      head: say("Staples"),
      text: report.staples === 0 ? say("none") : String(report.staples),
      remark:
        report.staples === 0
          ? say("The turn-over has no room for staples: glue it, or hold it by a frame.")
          : say("at most {staples_every_mm} apart between the corners (common practice)", {
              staples_every_mm: lengthShown(report.staples_every_mm, unit),
            }),
    },
  ];
}

/** What it weighs: the whole piece, then part by part of one panel. */
export function weightRows(report: BarsReport, unit: Unit): readonly OrderRow[] {
  const of =
    report.panels > 1
      ? say("all {panels} panels; one weighs {panel_g}", { panels: report.panels, panel_g: massShown(report.panel_g) })
      : undefined;
  return [
    {
      name: "whole",
      head: say("Whole piece"),
      text: massShown(report.whole_g),
      ...(of === undefined ? {} : { remark: of }),
    },
    ...report.masses.map(({ part, low_g, high_g, origin, reason }) => ({
      name: `mass-${part.replaceAll(" ", "-")}`,
      head: part === "canvas" ? say("Canvas alone") : capitalised(saidAgain(part)),
      text: massShown([low_g, high_g]),
      remark: `${saidAgain(origin)}: ${inUnit(reason, unit)}`,
    })),
  ];
}

/** What one panel hangs by; of a group, how far its panels hang apart. */
export function hangingRows(on: Hanging, unit: Unit, pitchMm = 0): readonly OrderRow[] {
  const [first, last] = [on.hooks_mm[0], on.hooks_mm.at(-1)];
  const down = placed(first?.[1] ?? 0, unit);
  const apart = placed((last?.[0] ?? 0) - (first?.[0] ?? 0), unit);
  const rings = [on.rings_mm[0], on.rings_mm[1]];
  const wide = placed((rings[1]?.[0] ?? 0) - (rings[0]?.[0] ?? 0), unit);
  const wire: OrderRow =
    on.wire === undefined
      ? {
          name: "wire",
          head: say("Wire"),
          text: say("none"),
          remark:
            on.no_wire === "flat"
              ? say(
                  "it would lie so flat that it pulls with over {times} times the weight (common practice): hang it from its rings",
                  { times: rules.wire_pull_most },
                )
              : say("too heavy for one (common practice): hang it from its rings"),
        }
      : {
          name: "wire",
          head: say("Wire"),
          text: say("rated {wire_carries_kg} kg", { wire_carries_kg: on.wire_carries_kg.toFixed(1) }),
          remark: say("{length_mm} from ring to ring; drawn up {rise_mm} it pulls {tension_n} N (derived)", {
            length_mm: placed(on.wire.length_mm, unit),
            rise_mm: placed(on.wire.rise_mm, unit),
            tension_n: on.wire.tension_n.toFixed(0),
          }),
        };
  return [
    {
      name: "hooks",
      head: on.hooks === 1 ? say("1 hook") : say("{hooks} hooks", { hooks: on.hooks }),
      text: say("{words}rated {hook_carries_kg} kg", {
        words: on.hooks === 1 ? "" : say("each "),
        hook_carries_kg: on.hook_carries_kg.toFixed(1),
      }),
      remark: say("{words}, {down} below the top edge", {
        words: on.hooks === 1 ? say("in the middle") : say("{apart} apart", { apart }),
        down,
      }),
    },
    {
      name: "rings",
      head: say("2 rings"),
      text: say("each rated {ring_carries_kg} kg", { ring_carries_kg: on.ring_carries_kg.toFixed(1) }),
      remark: say("{wide} apart, {rings} below the top edge", { wide, rings: placed(rings[0]?.[1] ?? 0, unit) }),
    },
    wire,
    ...(pitchMm === 0
      ? []
      : [
          {
            name: "pitch",
            head: say("From panel to panel"),
            text: lengthShown(pitchMm, unit),
            remark: say("from one's middle to the next"),
          },
        ]),
  ];
}

/** As exactly as a ring is screwed on. */
function placed(mm: number, unit: Unit): string {
  return lengthShown(unit === "mm" ? Math.round(mm) : mm, unit);
}

function listed(lengths: readonly Length[], unit: Unit): string {
  return lengths.map(({ count, length_mm }) => `${count} × ${lengthShown(length_mm, unit)}`).join(",\n");
}
