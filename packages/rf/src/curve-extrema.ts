/** A turning point of a sampled curve, between the samples. */
export interface Extremum {
  readonly x: number;
  readonly y: number;
  /** Index of the sample that is highest or lowest. */
  readonly index: number;
  /** How far the curve must fall back (or rise again) on the way to a higher (lower) place or to the end, in y. */
  readonly prominence: number;
}

/**
 * Vertex of the parabola through three points (Lagrange's form; the spacing may be uneven), kept between the outer two.
 * For three points in a line it is the middle one.
 */
function vertex(x: readonly [number, number, number], y: readonly [number, number, number]): { x: number; y: number } {
  const left = (y[1] - y[0]) / (x[1] - x[0]);
  const right = (y[2] - y[1]) / (x[2] - x[1]);
  const bend = (right - left) / (x[2] - x[0]);
  if (bend === 0) return { x: x[1], y: y[1] };
  const at = (x[0] + x[1]) / 2 - left / (2 * bend);
  const kept = Math.min(x[2], Math.max(x[0], at));
  return { x: kept, y: y[0] + left * (kept - x[0]) + bend * (kept - x[0]) * (kept - x[1]) };
}

/** How far a curve falls on one side of a sample before it is higher than there. */
interface Fall {
  readonly depth: number;
  /** True when it is never higher again on that side. */
  readonly end: boolean;
}

/** The fall to the left of every sample, in one pass: the stack holds the samples not yet topped, each with the lowest value since the one below it. */
function fallsToTheLeft(y: readonly number[]): readonly Fall[] {
  const stack: { top: number; lowest: number }[] = [];
  return y.map((here) => {
    let lowest = here;
    for (let last = stack.at(-1); last !== undefined && last.top <= here; last = stack.at(-1)) {
      lowest = Math.min(lowest, last.lowest);
      stack.pop();
    }
    const fall = { depth: here - lowest, end: stack.length === 0 };
    stack.push({ top: here, lowest });
    return fall;
  });
}

/** Topographic prominence: the lesser fall of those sides that lead higher, or the greater one for the highest peak. */
function prominences(y: readonly number[]): readonly number[] {
  const left = fallsToTheLeft(y);
  const right = [...fallsToTheLeft([...y].reverse())].reverse();
  return left.map((a, i) => {
    const b = right[i] ?? a;
    if (a.end && b.end) return Math.max(a.depth, b.depth);
    if (a.end) return b.depth;
    return b.end ? a.depth : Math.min(a.depth, b.depth);
  });
}

/** Where the plateau that begins at `i` ends. */
function plateauEnd(y: readonly number[], i: number): number {
  let end = i;
  while (end + 1 < y.length && y[end + 1] === y[i]) end++;
  return end;
}

/**
 * Peaks of a curve given by its samples, rising in x, each placed by the parabola through the sample and its neighbours. The first and the
 * last sample are never peaks. Samples that are not finite count as below everything. `least` is the least prominence, in y.
 */
export function curvePeaks(x: readonly number[], y: readonly number[], least = 0): readonly Extremum[] {
  const finite = y.map((value) => (Number.isFinite(value) ? value : Number.NEGATIVE_INFINITY));
  const peaks: Extremum[] = [];
  const rises = prominences(finite);
  for (let i = 1; i < finite.length - 1; i++) {
    const here = finite[i] ?? Number.NaN;
    const end = plateauEnd(finite, i);
    const before = finite[i - 1] ?? Number.NaN;
    const after = finite[end + 1] ?? Number.NaN;
    if (Number.isFinite(here) && before < here && after < here) {
      const prominence = rises[i] ?? 0;
      if (prominence >= least) peaks.push({ ...placed(x, finite, { i, end }), index: i, prominence });
    }
    i = end;
  }
  return peaks;
}

/** The same for the lowest places. */
export const curveDips = (x: readonly number[], y: readonly number[], least = 0): readonly Extremum[] =>
  curvePeaks(
    x,
    y.map((value) => -value),
    least,
  ).map((peak) => ({ ...peak, y: -peak.y }));

interface Plateau {
  readonly i: number;
  readonly end: number;
}

function placed(x: readonly number[], y: readonly number[], { i, end }: Plateau): { x: number; y: number } {
  const at = (list: readonly number[], index: number) => list[index] ?? Number.NaN;
  if (end > i) return { x: (at(x, i) + at(x, end)) / 2, y: at(y, i) };
  const ys = [at(y, i - 1), at(y, i), at(y, i + 1)] as const;
  if (!ys.every(Number.isFinite)) return { x: at(x, i), y: at(y, i) };
  return vertex([at(x, i - 1), at(x, i), at(x, i + 1)], [...ys]);
}
