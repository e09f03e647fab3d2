import type { Bounds, Point } from '@sheetwave/geometry';
import { overlaps } from './box.ts';
import { type Anchor, halfCapital, textBox } from './text-size.ts';

export interface LabelWish {
  readonly text: string;
  readonly centre: Point;
  /** Radius of what the label must stay clear of at its own place. */
  readonly radiusMm: number;
}

export interface PlacedLabel {
  readonly text: string;
  readonly at: Point;
  readonly anchor: Anchor;
  readonly box: Bounds;
}

/** Directions tried in turn, as parts of a full turn; up and to the right first. */
const DIRECTIONS = [1, 3, 5, 7, 0, 4, 2, 6].map((eighth) => (eighth * Math.PI) / 4);
const DISTANCES = [0.8, 2, 3.5, 5.5];

/**
 * Puts each label beside its own circle where it covers neither another label nor any `keepClear` box.
 * A label for which no place is free is left out of the result: the caller says so in words.
 */
export function placeLabels(
  wishes: readonly LabelWish[],
  look: { readonly sizeMm: number; readonly keepClear: readonly Bounds[] },
): readonly PlacedLabel[] {
  const taken = new Crowd(look.sizeMm * 8);
  for (const box of look.keepClear) taken.add(box);
  const placed: PlacedLabel[] = [];
  for (const wish of wishes) {
    const label = candidates(wish, look.sizeMm).find((candidate) => !taken.meets(candidate.box));
    if (label === undefined) continue;
    taken.add(label.box);
    placed.push(label);
  }
  return placed;
}

function candidates(wish: LabelWish, sizeMm: number): readonly PlacedLabel[] {
  return DISTANCES.flatMap((distance) => DIRECTIONS.map((angle) => candidate(wish, { distance, angle, sizeMm })));
}

function candidate(
  wish: LabelWish,
  how: { readonly distance: number; readonly angle: number; readonly sizeMm: number },
): PlacedLabel {
  const { text, centre } = wish;
  const [dx, dy] = [Math.cos(how.angle), Math.sin(how.angle)];
  const reach = wish.radiusMm + how.distance;
  const anchor: Anchor = dx > 0.1 ? 'start' : dx < -0.1 ? 'end' : 'middle';
  const half = halfCapital(how.sizeMm);
  const at = { x: centre.x + dx * reach, y: centre.y + dy * (reach + half) - half };
  return { text, at, anchor, box: textBox(text, at, { sizeMm: how.sizeMm, anchor }) };
}

/** Boxes by square of a grid, so that a thousand labels need no million comparisons. */
class Crowd {
  readonly #side: number;
  readonly #squares = new Map<string, Bounds[]>();

  constructor(side: number) {
    this.#side = side;
  }
  add(box: Bounds): void {
    for (const key of this.#keys(box)) {
      const square = this.#squares.get(key);
      if (square === undefined) this.#squares.set(key, [box]);
      else square.push(box);
    }
  }
  meets(box: Bounds): boolean {
    return this.#keys(box).some((key) => this.#squares.get(key)?.some((other) => overlaps(other, box)) ?? false);
  }
  #keys(box: Bounds): readonly string[] {
    const keys: string[] = [];
    const [left, right] = [Math.floor(box.minX / this.#side), Math.floor(box.maxX / this.#side)];
    const [low, high] = [Math.floor(box.minY / this.#side), Math.floor(box.maxY / this.#side)];
    for (let column = left; column <= right; column++)
      for (let row = low; row <= high; row++) keys.push(`${column} ${row}`);
    return keys;
  }
}
