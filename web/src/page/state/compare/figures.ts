// The figures of a variant as text. Pure.
import type { VariantReply } from "../../../contract/types";
import { massShown } from "../layout/ordering";
import { loaded } from "../layout/consequences";
import { percentShown, sizeShown, type Unit } from "../../../units";

/** One figure: its name, its heading, and a variant's value as text. */
export interface Figure {
  readonly name: string;
  readonly head: string;
  readonly text: string;
}

/** Picture lost, canvas needed, whether what is loaded holds it, clipped share, weights. */
export function figuresOf(variant: VariantReply, unit: Unit): readonly Figure[] {
  const [across, down] = variant.layout.flat.canvas_mm;
  const panels = variant.job.group.panels;
  const each = panels > 1 ? `${panels} of ` : "";
  return [
    { name: "lost", head: "Cropped away", text: percentShown(variant.lost_share) },
    { name: "canvas", head: "Canvas", text: `${each}${sizeShown(across, down, unit)}` },
    { name: "fits", head: "Fits", text: variant.layout.sheet.fits ? "yes" : "no" },
    { name: "clipped", head: "Out of gamut", text: percentShown(variant.outside_share) },
    { name: "weight", head: "Canvas alone", text: `${Math.round(variant.weight_g)} g` },
    { name: "piece", head: "Whole piece", text: massShown(variant.whole_g) },
  ];
}

/** The sentence that announces the variants on the wall. */
export function besideSentence(labels: readonly string[], variants: readonly VariantReply[]): string {
  const fitting = variants.filter(({ layout }) => layout.sheet.fits).length;
  const holder = variants.some(({ job }) => loaded(job) === "roll") ? "roll" : "sheet";
  const count = fitting === variants.length ? "all" : fitting === 0 ? "none" : `${fitting} of ${variants.length}`;
  return `Side by side: ${labels.slice(0, -1).join(", ")} and ${labels.at(-1) ?? ""}. The ${holder} holds ${count}.`;
}
