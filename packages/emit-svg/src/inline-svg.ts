import { heightOf, type Pen, type Style, widthOf } from '@sheetwave/drawings';
import type { Bounds } from '@sheetwave/geometry';
import { openCanvas } from './canvas.ts';

/** A drawing to stand in a page among others. */
export interface Inlined {
  readonly title: string;
  readonly about: string;
  readonly box: Bounds;
  draw(pen: Pen): void;
}

/**
 * An `<svg>` element to put into a page, true to size. It has no ids: those of several drawings in one page would meet.
 */
export function inlineSvg({ title, about, box, draw }: Inlined): string {
  const canvas = openCanvas({ page: box, title, about });
  draw(nameless(canvas));
  const text = new TextDecoder().decode(canvas.bytes());
  const start = text.indexOf('<svg');
  if (start < 0 || !(widthOf(box) > 0) || !(heightOf(box) > 0)) throw new Error('the drawing has no size');
  return text.slice(start).trimEnd();
}

type Named = Style & { readonly id?: string };

/** A pen that drops the names of what it draws. */
function nameless(pen: Pen): Pen {
  const bare = ({ id: _, ...style }: Named = {}): Style => style;
  return {
    group: (_, style) => nameless(pen.group('', style)),
    line: (from, to, style) => pen.line(from, to, bare(style)),
    lines: (pairs, style) => pen.lines(pairs, bare(style)),
    polyline: (points, style) => pen.polyline(points, bare(style)),
    polygon: (points, style) => pen.polygon(points, bare(style)),
    polygons: (rings, style) => pen.polygons(rings, bare(style)),
    circle: (centre, radiusMm, style) => pen.circle(centre, radiusMm, bare(style)),
    box: (box, style) => pen.box(box, bare(style)),
    contours: (contours, style) => pen.contours(contours, bare(style)),
    text: (at, text, { id: _, ...style }) => pen.text(at, text, style),
  };
}
