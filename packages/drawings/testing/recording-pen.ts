import { type Bounds, type Contour, flattenContour, type Point } from '@sheetwave/geometry';
import type { Pen, Style } from '../src/pen.ts';

/** One thing that was drawn, with what its groups passed on to it. */
export interface Drawn {
  readonly group: string;
  readonly id: string | undefined;
  readonly rings: readonly (readonly Point[])[];
  readonly style: Style;
  readonly words: string | undefined;
}

/** A pen that keeps what it is told to draw. */
export function recordingPen(drawn: Drawn[] = [], group = '', inherited: Style = {}): Pen {
  const keep = (rings: readonly (readonly Point[])[], style: Style & { readonly id?: string }, words?: string) => {
    const { id, ...rest } = style;
    drawn.push({ group, id, rings, style: { ...inherited, ...rest }, words });
  };
  const ringOf = (contour: Contour) => flattenContour(contour);
  return {
    group: (id, style = {}) => recordingPen(drawn, id, { ...inherited, ...style }),
    line: (from, to, style = {}) => keep([[from, to]], style),
    lines: (pairs, style = {}) => keep(pairs, style),
    polyline: (points, style = {}) => keep([points], style),
    polygon: (points, style = {}) => keep([points], style),
    polygons: (rings, style = {}) => keep(rings, style),
    circle: (centre, radiusMm, style = {}) => keep([ringOf({ kind: 'circle', centre, radiusMm })], style),
    box: (box, style = {}) => keep([corners(box)], style),
    contours: (contours, style = {}) => keep(contours.map(ringOf), style),
    text: (at, text, style) => keep([[at]], style.id === undefined ? {} : { id: style.id }, text),
  };
}

const corners = ({ minX, minY, maxX, maxY }: Bounds): readonly Point[] => [
  { x: minX, y: minY },
  { x: maxX, y: minY },
  { x: maxX, y: maxY },
  { x: minX, y: maxY },
];
