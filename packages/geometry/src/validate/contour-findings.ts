import type { Finding } from '@sheetwave/design';
import { pieceLength, signedArea } from '../contour-measure.ts';
import { selfCrossings } from '../crossings.ts';
import { errorFinding, mm } from '../finding.ts';
import type { Contour, Point } from '../outline.ts';
import { contourPieces } from '../pieces.ts';

/** Shorter pieces are rounding left over, mm. */
const LEAST_PIECE_MM = 1e-6;
/** How much the ends of an arc may differ in their distance from its centre, mm. */
const UNEVEN_ARC_MM = 1e-4;

/** What is wrong with one contour by itself: open, empty, crossing itself, with pieces of no length, or running the wrong way. */
export function contourFindings(
  contour: Contour,
  where: { path: string; what: string; sense: 'ccw' | 'cw' | 'any' },
): Finding[] {
  if (contour.kind === 'circle')
    return contour.radiusMm > 0
      ? []
      : [broken(where, `a circle of radius ${mm(contour.radiusMm)}`, 'a radius above 0')];
  const open = endGap(contour);
  if (open !== undefined) return [broken(where, open, 'a contour that ends exactly where it starts')];
  return [...pieceFindings(contour, where), ...crossingFinding(contour, where), ...senseFinding(contour, where)];
}

function endGap(contour: Extract<Contour, { kind: 'path' }>): string | undefined {
  const end = contour.segments.at(-1)?.to;
  if (end === undefined || contour.segments.length < 2) return `${contour.segments.length} segments`;
  if (end.x === contour.start.x && end.y === contour.start.y) return undefined;
  return `a gap of ${Math.hypot(end.x - contour.start.x, end.y - contour.start.y)} mm at ${spot(end)}`;
}

function pieceFindings(contour: Contour, where: { path: string; what: string }): Finding[] {
  const pieces = contourPieces(contour);
  const short = pieces.find((piece) => pieceLength(piece) < LEAST_PIECE_MM);
  const uneven = pieces.find((piece) => {
    if (piece.kind === 'line') return false;
    const [a, b] = [piece.from, piece.to].map((p) => Math.hypot(p.x - piece.centre.x, p.y - piece.centre.y));
    return Math.abs((a ?? 0) - (b ?? 0)) > UNEVEN_ARC_MM;
  });
  return [
    ...(short === undefined
      ? []
      : [broken(where, `a segment of no length at ${spot(short.from)}`, 'segments with a length')]),
    ...(uneven === undefined
      ? []
      : [broken(where, `an arc from ${spot(uneven.from)} whose ends differ in radius`, 'one radius')]),
  ];
}

function crossingFinding(contour: Contour, where: { path: string; what: string }): Finding[] {
  const at = selfCrossings(contour)[0];
  return at === undefined
    ? []
    : [broken(where, `crosses or touches itself at ${spot(at)}`, 'a contour that does not meet itself')];
}

function senseFinding(contour: Contour, where: { path: string; what: string; sense: 'ccw' | 'cw' | 'any' }): Finding[] {
  const area = signedArea(contour);
  const sense = area > 0 ? 'ccw' : 'cw';
  if (area !== 0 && (where.sense === 'any' || sense === where.sense)) return [];
  const words = { ccw: 'counter-clockwise', cw: 'clockwise', any: 'an area above 0' };
  return [broken(where, area === 0 ? 'encloses nothing' : `runs ${words[sense]}`, words[where.sense])];
}

function broken(where: { path: string; what: string }, value: string, allowed: string): Finding {
  return errorFinding('broken-contour', where.path, {
    value: `${where.what}: ${value}`,
    allowed: `instead of ${allowed}`,
    remedy: 'change the sizes that make this contour',
  });
}

/** A place for a message. */
export function spot(p: Point): string {
  const short = (value: number): number => Math.round(value * 1000) / 1000 + 0;
  return `(${short(p.x)}, ${short(p.y)}) mm`;
}
