// The figures of a variant as text. Pure.
import type { VariantReply } from "../../../contract/types";
import { massShown } from "../layout/ordering";
import { loaded } from "../layout/consequences";
import { percentShown, sizeShown, type Unit } from "../../../units";
import { say } from "../../../speech/on_page";

/** One figure: its name, its heading, and a variant's value as text. */
export interface Figure {
  readonly name: string;
  readonly head: string;
  readonly text: string;
}

/** Picture lost, canvas needed, whether what is loaded holds it, clipped share, weights: in one unit for all variants. */
export function figuresOf(variant: VariantReply, unit: Unit, variants: readonly VariantReply[]): readonly Figure[] {
  const heaviest = Math.max(...variants.map(({ whole_g }) => whole_g[1]));
  const [across, down] = variant.layout.flat.canvas_mm;
  const panels = variant.job.group.panels;
  const each = panels > 1 ? say("{panels} of ", { panels }) : "";
  return [
    { name: "lost", head: say("Cropped away##head"), text: percentShown(variant.lost_share) },
    { name: "canvas", head: say("Canvas"), text: `${each}${sizeShown(across, down, unit)}` },
    { name: "fits", head: say("Fits"), text: variant.layout.sheet.fits ? say("yes") : say("no") },
    { name: "clipped", head: say("Out of gamut##head"), text: percentShown(variant.outside_share) },
    {
      name: "weight",
      head: say("Canvas alone##head"),
      text: say("{weight_g} g", { weight_g: Math.round(variant.weight_g) }),
    },
    { name: "piece", head: say("Whole piece"), text: massShown(variant.whole_g, heaviest) },
  ];
}

/** The sentence that announces the variants on the wall. */
export function besideSentence(labels: readonly string[], variants: readonly VariantReply[]): string {
  const fitting = variants.filter(({ layout }) => layout.sheet.fits).length;
  const holder = variants.some(({ job }) => loaded(job) === "roll") ? "roll" : "sheet";
  const count =
    fitting === variants.length
      ? say("all##variants")
      : fitting === 0
        ? say("none")
        : say("{fitting} of {variantCount}", { fitting, variantCount: variants.length });
  return say("Side by side: {labels} and {at}. The {holder} holds {count}.", {
    labels: labels.slice(0, -1).join(", "),
    at: labels.at(-1) ?? "",
    holder,
    count,
  });
}
