// One sheet, or one length of the roll, to scale: pieces that can be moved by pointer or arrow keys, numbered cuts.
import { useSignal } from "@preact/signals";
import { useRef } from "preact/hooks";
import type { PlacedPiece, PlannedCut, PlannedSheet } from "../../../contract/types";
import { unit } from "../../state/page/settings";
import { chosenPiece, pins, setPins } from "../../state/plan/cutting";
import { pinAt, withoutPin, withPin } from "../../state/plan/pins";
import { pieceLabel, pieceText, sheetHead } from "../../state/plan/words";
import { lengthStep, sizeShown } from "../../../units";
import { say } from "../../../speech/on_page";
import { highestRem, letterHeight } from "./drawn_size";

/** How far a pointer moves before a press counts as a move, CSS pixels. */
const SLACK_PX = 4;

const ARROWS: Readonly<Record<string, readonly [x: number, y: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

export function SheetDrawing({ sheet }: { readonly sheet: PlannedSheet }) {
  const { width_mm, height_mm, margin_mm } = sheet;
  const [top, right, bottom, left] = margin_mm;
  const place = useRef<SVGSVGElement>(null);
  // Letters and lines keep their size on the screen, whatever the sheet measures.
  const letter_mm = letterHeight(width_mm, height_mm);
  const scale = (): number => {
    const shown = place.current?.getScreenCTM();
    return shown === null || shown === undefined ? 1 : shown.a;
  };
  return (
    <svg
      ref={place}
      class="cutting-drawing"
      viewBox={`0 0 ${width_mm} ${height_mm}`}
      role="group"
      aria-label={sheetHead(sheet, unit.value)}
      style={{ aspectRatio: `${width_mm} / ${height_mm}`, maxBlockSize: `${highestRem(width_mm, height_mm)}rem` }}
    >
      <rect class="cutting-stock" width={width_mm} height={height_mm} />
      <rect
        class="cutting-margin"
        x={left}
        y={top}
        width={Math.max(0, width_mm - left - right)}
        height={Math.max(0, height_mm - top - bottom)}
      />
      {sheet.pieces.map((piece) => (
        <Piece key={piece.name} piece={piece} sheet={sheet.number} letter_mm={letter_mm} scale={scale} />
      ))}
      {sheet.cuts.map((cut) => (
        <Cut key={cut.number} cut={cut} letter_mm={letter_mm} />
      ))}
    </svg>
  );
}

interface PieceProps {
  readonly piece: PlacedPiece;
  readonly sheet: number;
  readonly letter_mm: number;
  /** CSS pixels to a millimetre of the drawing. */
  readonly scale: () => number;
}

function Piece({ piece, sheet, letter_mm, scale }: PieceProps) {
  const moved = useSignal<readonly [number, number] | undefined>(undefined);
  const from = useRef<readonly [number, number] | undefined>(undefined);
  const [dx, dy] = moved.value ?? [0, 0];
  const { x_mm, y_mm, width_mm, height_mm, name } = piece;
  const label = pieceLabel(piece);
  const size = `${sizeShown(width_mm, height_mm, unit.value)}${piece.turned ? say(", turned") : ""}`;
  // A letter is about 0.55 of its height wide.
  const letter = Math.min(letter_mm, width_mm / (0.55 * Math.max(label.length, size.length) + 1), height_mm / 4);
  const pinHere = (change: Parameters<typeof pinAt>[3]): void =>
    setPins(withPin(pins.value, pinAt(pins.value, piece, sheet, change)));
  const offset = (event: PointerEvent): readonly [number, number] | undefined => {
    if (from.current === undefined) return undefined;
    const way = [event.clientX - from.current[0], event.clientY - from.current[1]] as const;
    if (moved.value === undefined && Math.hypot(...way) < SLACK_PX) return undefined;
    return [way[0] / scale(), way[1] / scale()];
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const arrow = ARROWS[event.key];
    const step = lengthStep(unit.value) * (event.shiftKey ? 10 : 1);
    const at = pinAt(pins.value, piece, sheet);
    if (arrow !== undefined) pinHere({ x_mm: at.x_mm + arrow[0] * step, y_mm: at.y_mm + arrow[1] * step });
    else if (event.key === "Enter" || event.key === " ") pinHere({});
    else if (event.key === "t" || event.key === "T") pinHere({ turned: !at.turned });
    else if (event.key === "Delete" || event.key === "Backspace") setPins(withoutPin(pins.value, name));
    else return;
    event.preventDefault();
  };
  return (
    <g
      class="cutting-piece"
      data-piece={name}
      data-pinned={piece.pinned}
      data-chosen={chosenPiece.value === name}
      transform={`translate(${x_mm + dx} ${y_mm + dy})`}
      tabIndex={0}
      role="button"
      aria-label={pieceText(piece, unit.value)}
      aria-describedby="cutting-keys"
      onFocus={() => (chosenPiece.value = name)}
      onKeyDown={onKeyDown}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        from.current = [event.clientX, event.clientY];
      }}
      onPointerMove={(event) => {
        const way = offset(event);
        if (way !== undefined) moved.value = way;
      }}
      onPointerUp={(event) => {
        const way = offset(event);
        from.current = undefined;
        moved.value = undefined;
        if (way !== undefined) pinHere({ x_mm: x_mm + way[0], y_mm: y_mm + way[1] });
      }}
      onPointerCancel={() => {
        from.current = undefined;
        moved.value = undefined;
      }}
    >
      <rect width={width_mm} height={height_mm} />
      <text x={width_mm / 2} y={height_mm / 2} font-size={letter}>
        {label}
      </text>{" "}
      <text class="cutting-size" x={width_mm / 2} y={height_mm / 2 + 1.3 * letter} font-size={0.85 * letter}>
        {size}
      </text>
    </g>
  );
}

function Cut({ cut, letter_mm }: { readonly cut: PlannedCut; readonly letter_mm: number }) {
  const [[x, y], [toX, toY]] = [cut.start_mm, cut.end_mm];
  const radius = 0.62 * letter_mm;
  // The number stands inside the sheet: where pieces part near the cut's beginning, where waste comes off at its end;
  // so far from there that it is clear of the number of a cut that ends in the same corner.
  const inside = Math.min(2.4 * radius, Math.hypot(toX - x, toY - y) / 2);
  const [nearX, nearY, inwards] = cut.trims ? [toX, toY, -inside] : [x, y, inside];
  const [atX, atY] = cut.way === "across" ? [nearX + inwards, nearY] : [nearX, nearY + inwards];
  return (
    <g class="cutting-cut" data-trims={cut.trims} aria-hidden="true">
      <line x1={x} y1={y} x2={toX} y2={toY} />
      <circle cx={atX} cy={atY} r={radius} />
      <text x={atX} y={atY} font-size={0.8 * letter_mm}>
        {cut.number}
      </text>
    </g>
  );
}
