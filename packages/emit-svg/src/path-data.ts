import { type Contour, type ContourSink, type Point, walkContour } from '@sheetwave/geometry';
import { fixed } from './number.ts';

/** Turns a point of the drawing (y up) into page units (y down). */
export type ToPage = (point: Point) => Point;

/**
 * Path data of closed contours, arcs as `A` commands.
 * SVG 1.1 section 8.3.8: sweep-flag 1 is the direction of positive angle, clockwise on a screen whose y points down,
 * so a contour's counter-clockwise arc has sweep-flag 0. A whole circle cannot be one arc and is written as two halves.
 */
export function pathData(contours: readonly Contour[], toPage: ToPage): string {
  const sink = new PathSink(toPage);
  for (const contour of contours) walkContour(contour, sink);
  return sink.data;
}

class PathSink implements ContourSink {
  data = '';
  readonly #toPage: ToPage;
  #at: Point = { x: 0, y: 0 };

  constructor(toPage: ToPage) {
    this.#toPage = toPage;
  }
  circle(centre: Point, radiusMm: number): void {
    const right = { x: centre.x + radiusMm, y: centre.y };
    const left = { x: centre.x - radiusMm, y: centre.y };
    this.begin(right);
    this.#half(left, radiusMm);
    this.#half(right, radiusMm);
    this.close();
  }
  begin(at: Point): void {
    this.data += `M${this.#point(at)}`;
    this.#at = at;
  }
  line(to: Point): void {
    this.data += `L${this.#point(to)}`;
    this.#at = to;
  }
  arc(to: Point, centre: Point, sense: 'ccw' | 'cw'): void {
    const radius = Math.hypot(to.x - centre.x, to.y - centre.y);
    const large = turnOf(this.#at, to, { centre, sense }) > Math.PI ? 1 : 0;
    this.data += `A${fixed(radius)} ${fixed(radius)} 0 ${large} ${sense === 'ccw' ? 0 : 1} ${this.#point(to)}`;
    this.#at = to;
  }
  close(): void {
    this.data += 'Z';
  }
  #half(to: Point, radius: number): void {
    this.data += `A${fixed(radius)} ${fixed(radius)} 0 0 0 ${this.#point(to)}`;
  }
  #point(point: Point): string {
    const { x, y } = this.#toPage(point);
    return `${fixed(x)} ${fixed(y)}`;
  }
}

/** Angle an arc turns through, 0 to 2π. */
function turnOf(from: Point, to: Point, about: { readonly centre: Point; readonly sense: 'ccw' | 'cw' }): number {
  const { centre, sense } = about;
  const start = Math.atan2(from.y - centre.y, from.x - centre.x);
  const end = Math.atan2(to.y - centre.y, to.x - centre.x);
  const turn = sense === 'ccw' ? end - start : start - end;
  return turn < 0 ? turn + 2 * Math.PI : turn;
}
