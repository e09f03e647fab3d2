import type { Pen } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';

/** Something drawn, with the name of its innermost group. */
export type Mark =
  | { readonly kind: 'line'; readonly group: string; readonly points: readonly Point[] }
  | { readonly kind: 'area'; readonly group: string; readonly points: readonly Point[] }
  | { readonly kind: 'circle'; readonly group: string; readonly centre: Point; readonly radiusMm: number }
  | { readonly kind: 'box'; readonly group: string; readonly box: Bounds }
  | { readonly kind: 'text'; readonly group: string; readonly at: Point; readonly text: string };

/** A pen that keeps what is drawn. */
export function recordingPen(): { readonly pen: Pen; readonly marks: readonly Mark[] } {
  const marks: Mark[] = [];
  return { pen: penInto(marks, ''), marks };
}

function penInto(marks: Mark[], group: string): Pen {
  const line = (points: readonly Point[]) => void marks.push({ kind: 'line', group, points });
  const area = (points: readonly Point[]) => void marks.push({ kind: 'area', group, points });
  return {
    group: (id) => penInto(marks, id),
    line: (from, to) => line([from, to]),
    lines: (pairs) => {
      for (const pair of pairs) line(pair);
    },
    polyline: line,
    polygon: area,
    polygons: (rings) => {
      for (const ring of rings) area(ring);
    },
    circle: (centre, radiusMm) => void marks.push({ kind: 'circle', group, centre, radiusMm }),
    box: (box) => void marks.push({ kind: 'box', group, box }),
    contours: () => {
      throw new Error('no diagram draws contours');
    },
    text: (at, text) => void marks.push({ kind: 'text', group, at, text }),
  };
}
