import type { Contour, Point } from './outline.ts';
import { type ArcPiece, contourPieces, type Piece } from './pieces.ts';

export interface FlattenOptions {
  /** Greatest distance between an arc and the polygon; default 0.0005 mm. */
  readonly toleranceMm?: number;
  /** `on` (default) puts the corners on the arc; `around` puts the sides on it, so that the polygon lies outside the arc's circle. */
  readonly corners?: 'on' | 'around';
}

/**
 * Corners of a polygon that follows the contour, in its direction, without repeating the first one.
 * The same contour always gives the same corners; a circle starts at its rightmost point.
 * For checks, unions and pictures: what is cut or etched keeps its arcs. Throws when the tolerance is not above zero.
 */
export function flattenContour(contour: Contour, options: FlattenOptions = {}): readonly Point[] {
  const { toleranceMm = 0.0005, corners = 'on' } = options;
  if (!(toleranceMm > 0)) throw new Error(`flattening needs a tolerance above 0, not ${toleranceMm} mm`);
  return contourPieces(contour).flatMap((piece) => flattenPiece(piece, { toleranceMm, corners }));
}

/** From the start of the piece to just before its end. */
function flattenPiece(piece: Piece, options: Required<FlattenOptions>): readonly Point[] {
  if (piece.kind === 'line') return [piece.from];
  const count = stepCount(piece, options.toleranceMm);
  const step = piece.sweepRad / count;
  const numbers = Array.from({ length: count }, (_, i) => i);
  if (options.corners === 'on') return numbers.map((i) => (i === 0 ? piece.from : onArc(piece, i * step, 1)));
  const reach = 1 / Math.cos(step / 2);
  const around = numbers.map((i) => onArc(piece, (i + 0.5) * step, reach));
  return isWhole(piece) ? around : [piece.from, ...around];
}

/** Sagitta of a step θ on radius r: r(1 − cos(θ/2)). A whole circle gets a multiple of four. */
function stepCount(piece: ArcPiece, toleranceMm: number): number {
  const cosine = Math.max(Math.cos(Math.PI / 8), 1 - toleranceMm / piece.radiusMm);
  const count = Math.max(1, Math.ceil(Math.abs(piece.sweepRad) / (2 * Math.acos(cosine)) - 1e-9));
  return isWhole(piece) ? 4 * Math.ceil(count / 4) : count;
}

const isWhole = (piece: ArcPiece): boolean => Math.abs(piece.sweepRad) >= 2 * Math.PI;

function onArc(piece: ArcPiece, turned: number, reach: number): Point {
  const angle = piece.startRad + turned;
  return {
    x: piece.centre.x + reach * piece.radiusMm * Math.cos(angle),
    y: piece.centre.y + reach * piece.radiusMm * Math.sin(angle),
  };
}
