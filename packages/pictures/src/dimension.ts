import type { Pen } from '@sheetwave/drawings';
import { arrowHead, halfCapital, textBox, textWidth } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';
import { INK, SOFT } from './palette.ts';

const SIZE = 3;
const HEAD = 1.8;
const OVERSHOOT = 1;
const OFF_EDGE = 1;

/** A length shown along x or y in a picture. `at` is where the dimension line runs, `edge` where its extension lines begin. */
export interface Dimension {
  readonly axis: 'x' | 'y';
  readonly from: number;
  readonly to: number;
  readonly edge: number;
  readonly at: number;
  readonly text: string;
}

/** Extension lines, a line with arrow heads, and the words beside it; a short one has its arrows and words outside. */
export function drawDimension(pen: Pen, dimension: Dimension): void {
  const { axis, from, to, at, edge } = dimension;
  const point = (along: number, across: number): Point =>
    axis === 'x' ? { x: along, y: across } : { x: across, y: along };
  const away = Math.sign(at - edge);
  const group = pen.group(`dimension-${axis}-${dimension.text.replace(/[^a-z0-9]+/gi, '-')}`, {
    stroke: SOFT,
    width: 0.15,
    fill: 'none',
  });
  const extension = (along: number): readonly [Point, Point] => [
    point(along, edge + away * OFF_EDGE),
    point(along, at + away * OVERSHOOT),
  ];
  group.lines([extension(from), extension(to)]);
  const roomy = to - from > 4 * HEAD;
  const reach = roomy ? 0 : 2.5 * HEAD;
  group.line(point(from - reach, at), point(to + reach, at));
  const outward = point(1, 0);
  const inward = point(-1, 0);
  arrowHead(group, point(from, at), { direction: roomy ? inward : outward, lengthMm: HEAD, colour: SOFT });
  arrowHead(group, point(to, at), { direction: roomy ? outward : inward, lengthMm: HEAD, colour: SOFT });
  const words = wordsPlace(dimension);
  group.text(words.at, dimension.text, { sizeMm: SIZE, anchor: words.anchor, upright: axis === 'x', colour: INK });
}

interface WordsPlace {
  readonly at: Point;
  readonly anchor: 'start' | 'middle';
}

function wordsPlace(dimension: Dimension): WordsPlace {
  const { axis, from, to, at } = dimension;
  const fits = textWidth(dimension.text, { sizeMm: SIZE }) < to - from;
  const along = fits ? (from + to) / 2 : to + 3.2 * HEAD;
  const across = fits ? 1 : -halfCapital(SIZE);
  const place = axis === 'x' ? { x: along, y: at + across } : { x: at - across, y: along };
  return { at: place, anchor: fits ? 'middle' : 'start' };
}

/** The box of the words and the line, for those who plan the page. */
export function dimensionBox(dimension: Dimension): Bounds {
  const { at, anchor } = wordsPlace(dimension);
  return textBox(dimension.text, at, { sizeMm: SIZE, anchor, upright: dimension.axis === 'x' });
}
