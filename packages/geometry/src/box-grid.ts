import { type Bounds, pieceBounds } from './contour-measure.ts';
import type { Piece } from './pieces.ts';

/** Things by the boxes around them, so that neighbours are found without comparing all with all. */
export class BoxGrid<T> {
  readonly #cellMm: number;
  readonly #cells = new Map<string, { box: Bounds; item: T; order: number }[]>();
  #count = 0;

  /** @param cellMm size of a cell, about that of the things; above 0. */
  constructor(cellMm: number) {
    if (!(cellMm > 0)) throw new Error(`a grid needs cells above 0 mm, not ${cellMm}`);
    this.#cellMm = cellMm;
  }

  add(box: Bounds, item: T): void {
    const entry = { box, item, order: this.#count++ };
    for (const key of this.#keys(box)) {
      const cell = this.#cells.get(key);
      if (cell === undefined) this.#cells.set(key, [entry]);
      else cell.push(entry);
    }
  }

  /** Items whose boxes share a point with this one, each once, in the order in which they were added. */
  near(box: Bounds): readonly T[] {
    const found = new Map<number, T>();
    for (const key of this.#keys(box))
      for (const entry of this.#cells.get(key) ?? []) if (meet(entry.box, box)) found.set(entry.order, entry.item);
    return [...found.entries()].sort(([a], [b]) => a - b).map(([, item]) => item);
  }

  *#keys(box: Bounds): Generator<string> {
    const cell = (value: number): number => Math.floor(value / this.#cellMm);
    for (let i = cell(box.minX); i <= cell(box.maxX); i++)
      for (let j = cell(box.minY); j <= cell(box.maxY); j++) yield `${i},${j}`;
  }
}

function meet(a: Bounds, b: Bounds): boolean {
  return a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY;
}

/** The box grown on every side, mm. */
export function grownBox(box: Bounds, by: number): Bounds {
  return { minX: box.minX - by, minY: box.minY - by, maxX: box.maxX + by, maxY: box.maxY + by };
}

/** Pieces by the boxes around them; the cells suit the mean piece, so that a few long ones don't fill thousands. */
export function pieceGrid<P extends Piece>(pieces: readonly P[]): BoxGrid<P> {
  const boxes = pieces.map((piece) => ({ piece, box: pieceBounds(piece) }));
  const sizes = boxes.map(({ box }) => Math.max(box.maxX - box.minX, box.maxY - box.minY));
  const mean = sizes.reduce((sum, size) => sum + size, 0) / Math.max(1, sizes.length);
  const grid = new BoxGrid<P>(Math.max(0.1, mean, sizes.reduce((most, size) => Math.max(most, size), 0) / 200));
  for (const { piece, box } of boxes) grid.add(box, piece);
  return grid;
}
