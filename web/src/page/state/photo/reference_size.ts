// The size of a reference as the core's word for it. Pure.

export type SizeKind = "a4" | "letter" | "own";

export function sizeKind(size: string): SizeKind {
  if (size.startsWith("a4")) return "a4";
  return size.startsWith("letter") ? "letter" : "own";
}

/** Width and height of a size of one's own. */
export function ownSize(size: string): { readonly width_mm: number; readonly height_mm: number } {
  const [width = 80, height = width] = size.split("x").map(Number).filter(Number.isFinite);
  return { width_mm: width, height_mm: height };
}
