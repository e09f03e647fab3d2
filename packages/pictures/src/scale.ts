import type { Contour, Point, Segment } from '@sheetwave/geometry';

/** A point about the origin made larger or smaller. */
export const scalePoint = (point: Point, scale: number): Point => ({ x: point.x * scale, y: point.y * scale });

/** A contour about the origin made larger or smaller. The scale must be above 0. */
export function scaleContour(contour: Contour, scale: number): Contour {
  if (!(scale > 0)) throw new Error(`a contour cannot be scaled by ${scale}`);
  if (contour.kind === 'circle')
    return { kind: 'circle', centre: scalePoint(contour.centre, scale), radiusMm: contour.radiusMm * scale };
  const segments = contour.segments.map((segment): Segment => {
    const to = scalePoint(segment.to, scale);
    return segment.kind === 'line'
      ? { kind: 'line', to }
      : { ...segment, to, centre: scalePoint(segment.centre, scale) };
  });
  return { kind: 'path', start: scalePoint(contour.start, scale), segments };
}
