import { arcSweep, type Sense } from './arc.ts';
import type { Contour, Point } from './outline.ts';
import { type ContourSink, walkContour } from './walk.ts';

/** A straight piece of a contour with both its ends. */
export interface LinePiece {
  readonly kind: 'line';
  readonly from: Point;
  readonly to: Point;
}

/** A round piece of a contour with what measuring needs; `sweepRad` is ±2π for a whole circle. */
export interface ArcPiece {
  readonly kind: 'arc';
  readonly from: Point;
  readonly to: Point;
  readonly centre: Point;
  readonly sense: Sense;
  readonly radiusMm: number;
  readonly startRad: number;
  readonly sweepRad: number;
}

export type Piece = LinePiece | ArcPiece;

/** The pieces of a contour in order, each with its start. A circle is one whole-turn arc that starts at its rightmost point. */
export function contourPieces(contour: Contour): readonly Piece[] {
  const collector = new PieceCollector();
  walkContour(contour, collector);
  return collector.pieces;
}

/** An arc piece from its ends; the radius is the mean of what both ends give. */
function arcPiece(from: Point, to: Point, about: { readonly centre: Point; readonly sense: Sense }): ArcPiece {
  const { centre, sense } = about;
  const atFrom = Math.hypot(from.x - centre.x, from.y - centre.y);
  const atTo = Math.hypot(to.x - centre.x, to.y - centre.y);
  return {
    kind: 'arc',
    from,
    to,
    centre,
    sense,
    radiusMm: (atFrom + atTo) / 2,
    startRad: Math.atan2(from.y - centre.y, from.x - centre.x),
    sweepRad: arcSweep({ from, to, centre, sense }),
  };
}

class PieceCollector implements ContourSink {
  readonly pieces: Piece[] = [];
  #at: Point = { x: 0, y: 0 };

  circle(centre: Point, radiusMm: number): void {
    const from = { x: centre.x + radiusMm, y: centre.y };
    const whole = { radiusMm, startRad: 0, sweepRad: 2 * Math.PI } as const;
    this.pieces.push({ kind: 'arc', from, to: from, centre, sense: 'ccw', ...whole });
  }
  begin(at: Point): void {
    this.#at = at;
  }
  line(to: Point): void {
    this.pieces.push({ kind: 'line', from: this.#at, to });
    this.#at = to;
  }
  arc(to: Point, centre: Point, sense: Sense): void {
    this.pieces.push(arcPiece(this.#at, to, { centre, sense }));
    this.#at = to;
  }
  close(): void {}
}
