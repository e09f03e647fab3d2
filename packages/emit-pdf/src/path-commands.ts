import { type Contour, contourPieces, type Piece, type Point } from '@sheetwave/geometry';

/** One step of a path as PDF knows it (ISO 32000-1 section 8.5.2: m, l, c, h). */
export type PathCommand =
  | { readonly kind: 'move'; readonly to: Point }
  | { readonly kind: 'line'; readonly to: Point }
  | { readonly kind: 'curve'; readonly first: Point; readonly second: Point; readonly to: Point }
  | { readonly kind: 'close' };

/** PDF has no arcs. A cubic over 30° leaves its arc by less than 4e-7 of the radius (four to the circle: 2.7e-4). */
const LARGEST_STEP_RAD = Math.PI / 6;

export function openPath(points: readonly Point[]): readonly PathCommand[] {
  return points.map((to, index) => ({ kind: index === 0 ? 'move' : 'line', to }));
}

export function closedPath(points: readonly Point[]): readonly PathCommand[] {
  return points.length === 0 ? [] : [...openPath(points), { kind: 'close' }];
}

export function contourPath(contour: Contour): readonly PathCommand[] {
  const pieces = contourPieces(contour);
  const [first] = pieces;
  if (first === undefined) return [];
  return [{ kind: 'move', to: first.from }, ...pieces.flatMap(pieceCommands), { kind: 'close' }];
}

function pieceCommands(piece: Piece): readonly PathCommand[] {
  if (piece.kind === 'line') return [{ kind: 'line', to: piece.to }];
  const { startRad, sweepRad } = piece;
  const steps = Math.max(1, Math.ceil(Math.abs(sweepRad) / LARGEST_STEP_RAD - 1e-9));
  const step = sweepRad / steps;
  return Array.from({ length: steps }, (_, index) => curve(piece, startRad + index * step, step));
}

/** Control points lie on the tangents at both ends, 4/3 tan(step / 4) radii away: the cubic then meets the arc in its middle. */
function curve(arc: { readonly centre: Point; readonly radiusMm: number }, fromRad: number, step: number): PathCommand {
  const reach = (4 / 3) * Math.tan(step / 4);
  const at = (angle: number, along: number): Point => ({
    x: arc.centre.x + arc.radiusMm * (Math.cos(angle) - along * Math.sin(angle)),
    y: arc.centre.y + arc.radiusMm * (Math.sin(angle) + along * Math.cos(angle)),
  });
  const toRad = fromRad + step;
  return { kind: 'curve', first: at(fromRad, reach), second: at(toRad, -reach), to: at(toRad, 0) };
}

/** The same path with every point moved by `to`, which must be affine. */
export function movedPath(path: readonly PathCommand[], to: (point: Point) => Point): readonly PathCommand[] {
  return path.map((command): PathCommand => {
    if (command.kind === 'close') return command;
    if (command.kind !== 'curve') return { kind: command.kind, to: to(command.to) };
    return { kind: 'curve', first: to(command.first), second: to(command.second), to: to(command.to) };
  });
}
