import type { Design, Layer, Orientation, PatchShape } from '@sheetwave/design';
import type { Element } from './assembly.ts';
import type { Point } from './outline.ts';
import { feedEdgeMm, metalReach, patchMetal } from './shapes/patch-metal.ts';

/**
 * Turn of an element about z, in degrees. A patch is drawn with its resonant length upward and its feed below the
 * centre; hung horizontally it is turned clockwise, so that the feed lies to the left.
 */
export function elementTurnDeg(orientation: Orientation): number {
  return orientation === 'vertical' ? 0 : -90;
}

/** Turns a point of the element's own plane as the element is turned. Exact: no sines. */
function turnForOrientation(point: Point, orientation: Orientation): Point {
  return orientation === 'vertical' ? point : { x: point.y, y: negate(point.x) };
}

/** -0 prints as "-0" and compares unequal in strict tests; keep it out of drawings. */
function negate(value: number): number {
  return value === 0 ? 0 : -value;
}

/** Unit vector from a patch's centre toward its fed edge. */
export function feedDirection(orientation: Orientation): Point {
  return turnForOrientation({ x: 0, y: -1 }, orientation);
}

/** Sums of pitches leave dust such as 1e-15; on a grid of a millionth of a millimetre equal places are equal. */
export function onGrid(point: Point): Point {
  const snap = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;
  return { x: snap(point.x), y: snap(point.y) };
}

/** Extent of a layer's metal in antenna coordinates, mm: twice its reach to the farther side of its centre. */
export function shapeExtent(shape: PatchShape, orientation: Orientation): { widthMm: number; heightMm: number } {
  const { acrossMm, alongMm } = metalReach(patchMetal(shape));
  return orientation === 'vertical'
    ? { widthMm: 2 * acrossMm, heightMm: 2 * alongMm }
    : { widthMm: 2 * alongMm, heightMm: 2 * acrossMm };
}

/** Where the feed meets the driven patch in the element's own plane: on the centre line, below the centre. */
export function feedPointInElement(design: Design, driven: Layer): Point {
  const edge = feedEdgeMm(driven.shape);
  const { feed } = design;
  if (feed.kind === 'probe') return { x: 0, y: -(edge - feed.fromEdgeMm) };
  return { x: 0, y: -(edge - (feed.kind === 'inset' ? feed.depthMm : 0)) };
}

/** Row 0 is the bottom one, column 0 the leftmost; the array is centred on (0, 0). */
export function latticeElements(design: Design): Element[] {
  const { rows, columns, rowPitchMm, columnPitchMm, orientation } = design.lattice;
  const [driven] = design.layers;
  if (!driven) throw new Error('a design has at least one layer');
  const feed = turnForOrientation(feedPointInElement(design, driven), orientation);
  const elements: Element[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const centre = { x: (column - (columns - 1) / 2) * columnPitchMm, y: (row - (rows - 1) / 2) * rowPitchMm };
      elements.push({
        row,
        column,
        centre: onGrid(centre),
        feedPoint: onGrid({ x: centre.x + feed.x, y: centre.y + feed.y }),
      });
    }
  }
  return elements;
}
