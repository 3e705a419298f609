/** Puts the scale on to the pixels of a still: ink on a pale plate, so that it can be read on every wall. */

import type { Unit } from "../../units";
import {
  type Dimension,
  dimensions,
  type FacePlane,
  type PicturePoint,
  pixelsPerMm,
  type Project,
  scaleBar,
} from "./still_scale";
import { mark, say } from "../../speech/say";

const INK = "#2b2622";
const PAPER = "rgba(248, 244, 236, 0.9)";
const OBLIQUE = mark("holds across the face, at its middle");

/** Part of the picture, pixels from its top left corner. */
export interface PictureBox {
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

interface Pen {
  readonly context: CanvasRenderingContext2D;
  /** Height of the letters. */
  readonly letterPx: number;
}

/** Draw bar and dimension lines; where the face is seen aslant, a text says where the scale holds. */
export function drawScale(
  context: CanvasRenderingContext2D,
  box: PictureBox,
  scene: { readonly project: Project; readonly face: FacePlane; readonly oblique: boolean },
  unit: Unit,
): void {
  const { project, face, oblique } = scene;
  const letterPx = Math.max(11, Math.round(Math.min(box.widthPx, box.heightPx) * 0.022));
  const pen: Pen = { context, letterPx };
  context.save();
  context.translate(box.left, box.top);
  context.font = `${letterPx}px Georgia, "Liberation Serif", serif`;
  context.textBaseline = "middle";
  for (const line of dimensions(project, face, box, letterPx * 1.6, unit)) drawDimension(pen, line);
  const bar = scaleBar(pixelsPerMm(project, face), box.widthPx, unit);
  const pad = letterPx * 0.8;
  const text = oblique ? `${bar.label}, ${say(OBLIQUE)}` : bar.label;
  const plate = Math.max(bar.lengthPx, context.measureText(text).width) + 2 * pad;
  const high = letterPx * 2.6;
  const [x, y] = [pad, box.heightPx - pad - high];
  context.fillStyle = PAPER;
  context.fillRect(x, y, plate, high);
  context.fillStyle = INK;
  context.textAlign = "left";
  context.fillText(text, x + pad, y + letterPx);
  // The bar's own height tells it from every letter; its ends are where the length ends.
  context.fillRect(x + pad, y + letterPx * 1.8, bar.lengthPx, Math.max(2, letterPx * 0.3));
  context.restore();
}

function drawDimension({ context, letterPx }: Pen, { from, to, label }: Dimension): void {
  const angle = Math.atan2(to.y - from.y, to.x - from.x);
  context.strokeStyle = INK;
  context.lineWidth = Math.max(1, letterPx / 12);
  context.beginPath();
  context.moveTo(from.x, from.y);
  context.lineTo(to.x, to.y);
  for (const end of [from, to]) tick(context, end, angle, letterPx * 0.4);
  context.stroke();
  context.save();
  context.translate((from.x + to.x) / 2, (from.y + to.y) / 2);
  // Never upside down.
  const upright = Math.abs(angle) > Math.PI / 2 + 0.01 ? angle + Math.PI : angle;
  context.rotate(upright);
  const wide = context.measureText(label).width + letterPx;
  context.fillStyle = PAPER;
  context.fillRect(-wide / 2, -letterPx * 0.7, wide, letterPx * 1.4);
  context.fillStyle = INK;
  context.textAlign = "center";
  context.fillText(label, 0, 0);
  context.restore();
}

/** A short stroke across the end of a line. */
function tick(context: CanvasRenderingContext2D, { x, y }: PicturePoint, angle: number, half: number): void {
  const [dx, dy] = [-Math.sin(angle) * half, Math.cos(angle) * half];
  context.moveTo(x - dx, y - dy);
  context.lineTo(x + dx, y + dy);
}
