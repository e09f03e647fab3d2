import { bounds, type Contour, contourPieces, type Piece, type Point } from '@sheetwave/geometry';

/** The dimensions of a closed curve from a datum, as a drawing gives them; mm. */
export type ContourDimensions =
  /** `x` and `y` are those of the lower left corner of the box around it. */
  | {
      readonly kind: 'rectangle';
      readonly x: number;
      readonly y: number;
      readonly widthMm: number;
      readonly heightMm: number;
      readonly cornerRadiusMm: number;
    }
  /** `x` and `y` are those of its centre. */
  | { readonly kind: 'circle'; readonly x: number; readonly y: number; readonly diameterMm: number }
  /** Corners in order; each says how the line goes on from it. The last one leads back to the first. */
  | { readonly kind: 'corners'; readonly corners: readonly Corner[] };

export interface Corner extends Point {
  readonly goesOn: 'line' | { readonly centre: Point; readonly sense: 'ccw' | 'cw'; readonly radiusMm: number };
}

const SAME_MM = 1e-6;

export function contourDimensions(contour: Contour, datum: Point): ContourDimensions {
  if (contour.kind === 'circle')
    return { kind: 'circle', ...from(contour.centre, datum), diameterMm: 2 * contour.radiusMm };
  const pieces = joined(contourPieces(contour));
  return rectangleOf(contour, pieces, datum) ?? { kind: 'corners', corners: pieces.map((one) => cornerOf(one, datum)) };
}

/** Lines that go on straight are one line. */
function joined(pieces: readonly Piece[]): readonly Piece[] {
  const kept: Piece[] = [];
  for (const piece of pieces) {
    const last = kept.at(-1);
    if (last !== undefined && goesOn(last, piece)) kept[kept.length - 1] = { ...last, to: piece.to };
    else kept.push(piece);
  }
  const [first, last] = [kept[0], kept.at(-1)];
  if (kept.length < 3 || first === undefined || last === undefined || !goesOn(last, first)) return kept;
  return [{ ...first, from: last.from }, ...kept.slice(1, -1)];
}

function goesOn(a: Piece, b: Piece): boolean {
  if (a.kind !== 'line' || b.kind !== 'line') return false;
  const [ax, ay, bx, by] = [a.to.x - a.from.x, a.to.y - a.from.y, b.to.x - b.from.x, b.to.y - b.from.y];
  const lengths = Math.hypot(ax, ay) * Math.hypot(bx, by);
  return Math.abs(ax * by - ay * bx) < SAME_MM * lengths && ax * bx + ay * by > 0;
}

const from = (point: Point, datum: Point): Point => ({ x: point.x - datum.x, y: point.y - datum.y });

function cornerOf(piece: Piece, datum: Point): Corner {
  const at = from(piece.from, datum);
  if (piece.kind === 'line') return { ...at, goesOn: 'line' };
  const { sense, radiusMm } = piece;
  return { ...at, goesOn: { centre: from(piece.centre, datum), sense, radiusMm } };
}

/** An upright rectangle, its corners square or all rounded alike; undefined for anything else. */
function rectangleOf(contour: Contour, pieces: readonly Piece[], datum: Point): ContourDimensions | undefined {
  const arcs = pieces.flatMap((piece) => (piece.kind === 'arc' ? [piece] : []));
  const lines = pieces.flatMap((piece) => (piece.kind === 'line' ? [piece] : []));
  if (lines.length !== 4 || (arcs.length !== 0 && arcs.length !== 4)) return undefined;
  const box = bounds(contour);
  const radius = arcs[0]?.radiusMm ?? 0;
  const inset = { minX: box.minX + radius, maxX: box.maxX - radius, minY: box.minY + radius, maxY: box.maxY - radius };
  const roundsCorner = arcs.every(
    ({ centre, radiusMm }) =>
      Math.abs(radiusMm - radius) < SAME_MM &&
      isOne(centre.x, inset.minX, inset.maxX) &&
      isOne(centre.y, inset.minY, inset.maxY),
  );
  const onEdge = lines.every(({ from: a, to: b }) =>
    Math.abs(a.x - b.x) < SAME_MM
      ? isOne(a.x, box.minX, box.maxX)
      : Math.abs(a.y - b.y) < SAME_MM && isOne(a.y, box.minY, box.maxY),
  );
  if (!roundsCorner || !onEdge) return undefined;
  return {
    kind: 'rectangle',
    ...from({ x: box.minX, y: box.minY }, datum),
    widthMm: box.maxX - box.minX,
    heightMm: box.maxY - box.minY,
    cornerRadiusMm: radius,
  };
}

const isOne = (value: number, a: number, b: number): boolean =>
  Math.abs(value - a) < SAME_MM || Math.abs(value - b) < SAME_MM;
