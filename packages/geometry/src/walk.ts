import type { Contour, Point, Segment } from './outline.ts';

/** Everything that draws or measures an outline implements this; nothing else walks segments. */
export interface ContourSink {
  /** A whole circle, counter-clockwise. */
  circle(centre: Point, radiusMm: number): void;
  begin(at: Point): void;
  line(to: Point): void;
  /** `ccw` turns left with y up. The start is the end of the call before. */
  arc(to: Point, centre: Point, sense: 'ccw' | 'cw'): void;
  close(): void;
}

/** Draws one closed contour into a sink: either `circle`, or `begin`, segments, `close`. */
export function walkContour(contour: Contour, sink: ContourSink): void {
  if (contour.kind === 'circle') {
    sink.circle(contour.centre, contour.radiusMm);
    return;
  }
  sink.begin(contour.start);
  for (const segment of contour.segments) walkSegment(segment, sink);
  sink.close();
}

function walkSegment(segment: Segment, sink: ContourSink): void {
  if (segment.kind === 'line') sink.line(segment.to);
  else sink.arc(segment.to, segment.centre, segment.sense);
}
