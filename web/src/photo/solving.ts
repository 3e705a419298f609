/** Small systems of equations, and least squares by Levenberg and Marquardt's method, as in the core. */

export type Matrix = readonly (readonly number[])[];

/** Solve a square system by elimination with the largest pivot; not a number where there is no solution. */
export function solve(matrix: Matrix, right: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, right[i] ?? 0]);
  const at = (row: number, column: number): number => rows[row]?.[column] ?? 0;
  for (let step = 0; step < rows.length; step += 1) {
    let best = step;
    for (let row = step + 1; row < rows.length; row += 1) {
      if (Math.abs(at(row, step)) > Math.abs(at(best, step))) best = row;
    }
    const [pivot = [], other = []] = [rows[best], rows[step]];
    rows[best] = other;
    rows[step] = pivot;
    for (let row = step + 1; row < rows.length; row += 1) {
      const by = at(row, step) / at(step, step);
      rows[row] = (rows[row] ?? []).map((value, column) => value - by * at(step, column));
    }
  }
  const found = rows.map(() => 0);
  for (let row = rows.length - 1; row >= 0; row -= 1) {
    let sum = at(row, rows.length);
    for (let column = row + 1; column < rows.length; column += 1) sum -= at(row, column) * (found[column] ?? 0);
    found[row] = sum / at(row, row);
  }
  return found;
}

export interface Fitted {
  readonly unknowns: readonly number[];
  readonly residuals: readonly number[];
  /** Transposed Jacobian times Jacobian: the inverse of the unknowns' covariance for residuals of deviation 1. */
  readonly normal: Matrix;
}

/** Step of the central differences: the cube root of the double's precision. */
const DIFFERENCE = 6e-6;
const MOST_STEPS = 100;
const MOST_DAMPING = 1e12;

export type Function = (unknowns: readonly number[]) => readonly number[];

/** One row of derivatives for each unknown. */
export function derivatives(of: Function, at: readonly number[]): number[][] {
  return at.map((value, i) => {
    const step = DIFFERENCE * Math.max(1, Math.abs(value));
    const [over, under] = [step, -step].map((by) => of(at.map((one, k) => (k === i ? one + by : one))));
    return (over ?? []).map((high, k) => (high - (under?.[k] ?? 0)) / (2 * step));
  });
}

const dot = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((sum, value, i) => sum + value * (other[i] ?? 0), 0);

/** The unknowns that make the sum of squared residuals least, near a start. */
export function fit(of: Function, start: readonly number[]): Fitted {
  let unknowns = start;
  let residuals = of(start);
  let slopes = derivatives(of, start);
  let damping = 1e-3;
  const normalOf = (): number[][] => slopes.map((row) => slopes.map((column) => dot(row, column)));
  for (let count = 0; count < MOST_STEPS; count += 1) {
    const normal = normalOf();
    const down = slopes.map((row) => -dot(row, residuals));
    let moved: number[] | undefined;
    while (damping < MOST_DAMPING && moved === undefined) {
      const damped = normal.map((row, i) =>
        row.map((value, k) => (i === k ? value + damping * (value + 1e-300) : value)),
      );
      const step = solve(damped, down);
      const tried = unknowns.map((value, i) => value + (step[i] ?? 0));
      const left = of(tried);
      if (left.every(Number.isFinite) && dot(left, left) < dot(residuals, residuals)) {
        moved = step;
        unknowns = tried;
        residuals = left;
      } else damping *= 10;
    }
    if (moved === undefined) break;
    damping = Math.max(damping / 10, 1e-12);
    slopes = derivatives(of, unknowns);
    if (moved.every((step, i) => Math.abs(step) <= 1e-13 * (1 + Math.abs(unknowns[i] ?? 0)))) break;
  }
  return { unknowns, residuals, normal: normalOf() };
}
