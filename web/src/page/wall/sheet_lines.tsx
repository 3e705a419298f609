// The lines on the sheet: below the canvas the sheet and its unprintable margins, above it folds, cuts, the
// trim line, the figures, and what does not fit.
import type { ComponentChildren } from "preact";
import type { Job, Layout } from "../../contract/types";
import type { StageFold } from "../../stage/types";
import { unit } from "../state/page/settings";
import { lengthShown } from "../../units";
import { say } from "../../speech/on_page";
import { heightMiddle, numberPlace, outside, type PlacedPanel, type Placing, type Rect } from "./placing";

interface SheetLinesProps {
  readonly placed: readonly PlacedPanel[];
  readonly layout: Layout;
  readonly job: Job;
  readonly fold: StageFold | undefined;
  readonly size: { readonly width: number; readonly height: number };
  readonly under?: boolean;
}

export function SheetLines({ placed, layout, job, fold, size, under = false }: SheetLinesProps) {
  const [first] = placed;
  if (first === undefined) return null;
  return (
    <svg class="sheet-lines" width={size.width} height={size.height} aria-hidden="true">
      {under ? (
        <Loaded placing={first.placing} job={job} />
      ) : (
        <>
          {placed.map(({ panel, placing }) => (
            <Drawn key={panel} placing={placing} layout={layout} fold={fold}>
              {job.group.panels > 1 && <PanelNumber placing={placing} panel={panel} />}
            </Drawn>
          ))}
          <Figures placing={first.placing} layout={layout} />
        </>
      )}
    </svg>
  );
}

/** The sheet with its margins, or the roll that runs on. */
function Loaded({ placing, job }: { readonly placing: Placing; readonly job: Job }) {
  const { sheet, scale } = placing;
  const [top, right, bottom, left] = job.sheet.margin_mm.map((mm) => mm * scale);
  if (top === undefined || right === undefined || bottom === undefined || left === undefined) return null;
  return (
    <>
      <defs>
        <pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" y1="0" x2="0" y2="6" class="hatch" />
        </pattern>
      </defs>
      <Box class="sheet-paper" {...sheet} />
      <path
        class="sheet-margin"
        fill-rule="evenodd"
        d={`${around(sheet)}${around({ x: sheet.x + left, y: sheet.y + top, width: sheet.width - left - right, height: sheet.height - top - bottom })}`}
      />
      {job.sheet.height_mm === undefined && (
        <path class="roll-edge" d={`M${sheet.x} ${sheet.y + sheet.height}h${sheet.width}`} />
      )}
    </>
  );
}

interface DrawnProps {
  readonly placing: Placing;
  readonly layout: Layout;
  readonly fold: StageFold | undefined;
  readonly children: ComponentChildren;
}

function Drawn({ placing, layout, fold, children }: DrawnProps) {
  const { canvas, sheet } = placing;
  const [across, down] = layout.flat.canvas_mm;
  return (
    <>
      {outside(canvas, sheet).map((rect) => (
        <Box key={`${rect.x} ${rect.y}`} class="overhang" {...rect} />
      ))}
      {fold && (
        <>
          <path class="line-fold-halo" d={lines(fold, placing, [across, down], "creases")} />
          <path class="line-fold" d={lines(fold, placing, [across, down], "creases")} />
          <path class="line-cut" d={lines(fold, placing, [across, down], "cuts")} />
        </>
      )}
      <Box class="line-trim" {...canvas} />
      {children}
    </>
  );
}

/** Which panel's canvas it is. */
function PanelNumber({ placing, panel }: { readonly placing: Placing; readonly panel: number }) {
  return (
    <text class="figure panel-number" {...numberPlace(placing)} text-anchor="middle">
      {panel}
    </text>
  );
}

/** The canvas's width and height beside the sheet; one of them says whose they are, since a phone has no room for two. */
function Figures({ placing, layout }: { readonly placing: Placing; readonly layout: Layout }) {
  const { canvas, sheet, turned } = placing;
  const [across, down] = layout.flat.canvas_mm;
  const [wide_mm, high_mm] = turned ? [down, across] : [across, down];
  const high = lengthShown(high_mm, unit.value);
  return (
    <>
      <text class="figure" x={canvas.x + canvas.width / 2} y={Math.min(canvas.y, sheet.y) - 12} text-anchor="middle">
        {say("canvas {length}", { length: lengthShown(wide_mm, unit.value) })}
      </text>
      <text
        class="figure"
        text-anchor="middle"
        transform={`translate(${Math.min(canvas.x, sheet.x) - 14} ${heightMiddle(placing, high.length)}) rotate(-90)`}
      >
        {high}
      </text>
    </>
  );
}

function Box({ x, y, width, height, class: name }: Rect & { readonly class: string }) {
  return <rect class={name} x={x} y={y} width={Math.max(0, width)} height={Math.max(0, height)} />;
}

function around({ x, y, width, height }: Rect): string {
  return `M${x} ${y}h${width}v${height}h${-width}z`;
}

/** Crease or cut lines of the mesh, laid flat by their place on the texture. */
function lines(fold: StageFold, placing: Placing, [across, down]: [number, number], which: "creases" | "cuts"): string {
  const parts: string[] = [];
  const [from, to] = which === "creases" ? [0, fold.creaseCount] : [fold.creaseCount, fold.outlines.length / 2];
  for (let segment = from; segment < to; segment++) {
    const ends = [fold.outlines[segment * 2], fold.outlines[segment * 2 + 1]].map((vertex) =>
      vertex === undefined
        ? { x: 0, y: 0 }
        : placing.point((fold.uv[vertex * 2] ?? 0) * across, (fold.uv[vertex * 2 + 1] ?? 0) * down),
    );
    parts.push(ends.map(({ x, y }, end) => `${end === 0 ? "M" : "L"}${x.toFixed(2)} ${y.toFixed(2)}`).join(""));
  }
  return parts.join("");
}
