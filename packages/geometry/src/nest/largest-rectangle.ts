import type { Bounds } from '../contour-measure.ts';

/**
 * The largest upright rectangle inside `room` that no box reaches into; undefined when nothing is free.
 * On the grid of all box edges each free column of cells is a bar, and the largest rectangle under a row of bars is found with one stack. Time
 * grows with the number of cells, which for boxes in rows and columns is that of the boxes. Ties go to the lowest, then leftmost.
 */
export function largestFreeRectangle(room: Bounds, boxes: readonly Bounds[]): Bounds | undefined {
  const inside = boxes.map((box) => clipped(box, room)).filter((box) => box.maxX > box.minX && box.maxY > box.minY);
  const xs = edges([room.minX, room.maxX, ...inside.flatMap((box) => [box.minX, box.maxX])]);
  const ys = edges([room.minY, room.maxY, ...inside.flatMap((box) => [box.minY, box.maxY])]);
  const taken = takenCells(inside, xs, ys);
  const depth: number[] = new Array(xs.length - 1).fill(0);
  let best: Bounds | undefined;
  for (let row = 0; row < ys.length - 1; row += 1) {
    for (let column = 0; column < depth.length; column += 1)
      depth[column] = taken.has(row * depth.length + column) ? 0 : (depth[column] ?? 0) + 1;
    best = underBars({ depth, row, xs, ys }, best);
  }
  return best;
}

interface Bars {
  /** Free cells downward from this row, column by column. */
  readonly depth: readonly number[];
  readonly row: number;
  readonly xs: readonly number[];
  readonly ys: readonly number[];
}

function underBars(bars: Bars, before: Bounds | undefined): Bounds | undefined {
  let best = before;
  const open: { from: number; depth: number }[] = [];
  for (let column = 0; column <= bars.depth.length; column += 1) {
    const here = bars.depth[column] ?? 0;
    let from = column;
    for (let top = open.at(-1); top !== undefined && top.depth >= here; top = open.at(-1)) {
      open.pop();
      from = top.from;
      best = larger(best, rectangle(bars, { from, to: column, depth: top.depth }));
    }
    open.push({ from, depth: here });
  }
  return best;
}

function rectangle({ row, xs, ys }: Bars, bar: { from: number; to: number; depth: number }): Bounds | undefined {
  const [minX, maxX] = [xs[bar.from], xs[bar.to]];
  const [minY, maxY] = [ys[row + 1 - bar.depth], ys[row + 1]];
  if (bar.depth === 0 || minX === undefined || maxX === undefined || minY === undefined || maxY === undefined)
    return undefined;
  return { minX, minY, maxX, maxY };
}

function larger(a: Bounds | undefined, b: Bounds | undefined): Bounds | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  return areaOf(b) > areaOf(a) + 1e-9 ? b : a;
}

const areaOf = (box: Bounds): number => (box.maxX - box.minX) * (box.maxY - box.minY);

function takenCells(boxes: readonly Bounds[], xs: readonly number[], ys: readonly number[]): ReadonlySet<number> {
  const taken = new Set<number>();
  const [column, row] = [placeIn(xs), placeIn(ys)];
  for (const box of boxes)
    for (let r = row(box.minY); r < row(box.maxY); r += 1)
      for (let c = column(box.minX); c < column(box.maxX); c += 1) taken.add(r * (xs.length - 1) + c);
  return taken;
}

/** Sorted, each once; what lies within a nanometre counts as one edge. */
function edges(values: readonly number[]): readonly number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.filter((value, i) => i === 0 || value - (sorted[i - 1] ?? value) > 1e-6);
}

/** Index of the edge nearest to a value, by halving. */
function placeIn(sorted: readonly number[]): (value: number) => number {
  return (value) => {
    let [low, high] = [0, sorted.length - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((sorted[middle] ?? 0) < value - 1e-5) low = middle + 1;
      else high = middle;
    }
    return low;
  };
}

function clipped(box: Bounds, room: Bounds): Bounds {
  return {
    minX: Math.max(box.minX, room.minX),
    minY: Math.max(box.minY, room.minY),
    maxX: Math.min(box.maxX, room.maxX),
    maxY: Math.min(box.maxY, room.maxY),
  };
}
