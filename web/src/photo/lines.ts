/** Lines over the photograph, as SVG in its own pixels: references, marked edges, the brush's ring. */
import type { Edge } from "./placing";
import { isLevel } from "./placing";
import { type Camera, type Corners, depthAt, type Point, seenAt } from "./plane";

const SVG = "http://www.w3.org/2000/svg";
/** Lines on the wall are drawn so far to either side of a place, mm, in steps that stay before the camera. */
const REACH_MM = 20_000;
const STEP_MM = 250;
const NEAR = 0.05;

export class PhotoLines {
  readonly element = document.createElementNS(SVG, "svg");
  private readonly outlines = document.createElementNS(SVG, "g");
  private readonly edges = document.createElementNS(SVG, "g");
  private readonly ring = document.createElementNS(SVG, "circle");

  constructor() {
    const { element, outlines, edges, ring } = this;
    element.setAttribute("aria-hidden", "true");
    element.style.cssText = "position:absolute;inset:0;inline-size:100%;block-size:100%;pointer-events:none;z-index:1";
    ring.setAttribute("visibility", "hidden");
    for (const group of [outlines, edges, ring]) {
      group.setAttribute("fill", "none");
      element.append(group);
    }
  }

  setPhoto([width, height]: Point): void {
    this.element.setAttribute("viewBox", `0 0 ${width} ${height}`);
  }

  showReferences(references: readonly Corners[]): void {
    this.outlines.replaceChildren(...references.flatMap((corners) => stroked([...corners, corners[0]].join(" "))));
  }

  showEdges(edges: readonly Edge[], camera: Camera | undefined): void {
    const lines = camera === undefined ? [] : edges.flatMap((edge) => stroked(edgeLine(camera, edge), "7 5"));
    this.edges.replaceChildren(...lines);
  }

  showRing(at: Point | undefined, radiusPx: number): void {
    const { ring } = this;
    ring.setAttribute("visibility", at === undefined ? "hidden" : "visible");
    if (at === undefined) return;
    for (const [name, value] of Object.entries({ cx: at[0], cy: at[1], r: radiusPx })) {
      ring.setAttribute(name, String(value));
    }
    ring.style.cssText =
      "stroke:#fff;stroke-width:2px;vector-effect:non-scaling-stroke;filter:drop-shadow(0 0 1px #000)";
  }
}

/** A line that is seen on light and on dark. */
function stroked(points: string, dashes = ""): SVGElement[] {
  return [
    ["#fff", "3.5px"],
    ["var(--accent)", "1.5px"],
  ].map(([colour, width]) => {
    const line = document.createElementNS(SVG, "polyline");
    line.setAttribute("points", points);
    line.style.cssText = `stroke:${colour};stroke-width:${width};stroke-dasharray:${dashes};vector-effect:non-scaling-stroke`;
    return line;
  });
}

/** A level or an upright line of the wall in the photograph, as far as it lies before the camera. */
export function edgeLine(camera: Camera, { kind, atMm }: Edge): string {
  const level = isLevel(kind);
  const points: string[] = [];
  for (let along = -REACH_MM; along <= REACH_MM; along += STEP_MM) {
    const place = level ? ([along, atMm, 0] as const) : ([atMm, along, 0] as const);
    if (depthAt(camera, place) > NEAR) points.push(seenAt(camera, place).join(","));
  }
  return points.join(" ");
}
