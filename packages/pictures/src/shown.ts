import { boxCorners, clipLine, clipPolygon, thicknessOf } from '@sheetwave/drawings';
import {
  type Assembly,
  type Bounds,
  type Contour,
  type CopperPiece,
  type FoldedEdge,
  flattenContour,
  foldedReflector,
  type Part,
  type Placement,
  type Point,
  type Point3,
  placeContour,
  placePoint,
} from '@sheetwave/geometry';
import type { Prism } from './axonometry.ts';
import { coaxSolid, connectorSolid } from './coax-solids.ts';
import { boughtSolid, round, type Solid, solid } from './hardware-solids.ts';
import { blend, TONES, type Tones, tonesOf } from './palette.ts';
import { isBehind, type Piece } from './tiers.ts';

/** A piece as the exploded view draws it, still where it belongs. */
export interface Shown {
  readonly piece: Piece;
  /** Its centre seen from in front: what orders pieces from the far ones to the near ones. */
  readonly centre: Point;
  readonly fromMm: number;
  readonly toMm: number;
  readonly solid: Solid | undefined;
  /** Copper of a board, painted on its front. */
  readonly copper: readonly { readonly ring: readonly Point[]; readonly dark: boolean }[];
  /** Round bars: the lines they follow. */
  readonly bars: readonly { readonly points: readonly Point3[]; readonly diameterMm: number; readonly tones: Tones }[];
}

/** Greatest distance between an arc and the polygon that stands for it in a picture, mm. */
const SMOOTH = { toleranceMm: 0.03 } as const;

/** What is seen of a piece inside `window` (antenna coordinates), or undefined when nothing is. */
export function show(assembly: Assembly, piece: Piece, window: Bounds): Shown | undefined {
  const { part, placement } = piece;
  switch (part.form) {
    case 'plate':
    case 'board':
      return showFlat(assembly, { part, placement }, window);
    case 'rod': {
      const points = part.corners.map((corner) => placePoint(corner, placement));
      return showBar(piece, window, { points, diameterMm: part.rod.diameterMm, material: part.rod.material.name });
    }
    case 'tube': {
      const points = [0, part.lengthMm].map((x) => placePoint({ x, y: 0, z: 0 }, placement));
      return showBar(piece, window, { points, diameterMm: part.tube.outerMm, material: part.tube.material.name });
    }
    case 'printed-spacer': {
      const z = [placement.at.z, placement.at.z + part.heightMm] as const;
      const size = { outerMm: part.outerMm, boreMm: part.boreMm, z };
      return asShown(piece, solid([round({ centre: placement.at, tones: TONES.plastic }, size)]));
    }
    case 'bought':
      return asShown(piece, solidOfBought(assembly, { part, placement }));
  }
}

type PieceOf<F extends Part['form']> = { readonly part: Extract<Part, { form: F }>; readonly placement: Placement };

function solidOfBought(assembly: Assembly, piece: PieceOf<'bought'>): Solid {
  const centre: Point = { x: piece.placement.at.x, y: piece.placement.at.y };
  if (piece.part.item.kind === 'connector') return connectorSolid(assembly, centre);
  const place = { centre, z: piece.placement.at.z, headUp: !isBehind(assembly, piece) };
  return boughtSolid(piece.part, place) ?? coaxSolid(assembly, centre);
}

function asShown(piece: Piece, body: Solid): Shown {
  const { fromMm, toMm } = body;
  return { piece, centre: piece.placement.at, fromMm, toMm, solid: body, copper: [], bars: [] };
}

function showFlat(assembly: Assembly, piece: PieceOf<'plate' | 'board'>, window: Bounds): Shown | undefined {
  const { part, placement } = piece;
  const folded = part.role === 'reflector' ? foldedReflector(assembly) : undefined;
  const cut = (contour: Contour) =>
    clipPolygon(flattenContour(placeContour(contour, placement), SMOOTH), boxCorners(window));
  const outer = cut(folded?.face ?? part.outline.outer);
  if (outer.length < 3) return undefined;
  const round = part.outline.holes.map(
    (hole): Contour => ({ kind: 'circle', centre: hole.centre, radiusMm: hole.diameterMm / 2 }),
  );
  const holes = [...part.outline.cutouts, ...round].map(cut).filter((ring) => ring.length > 2);
  const from = placement.at.z;
  const tones = flatTones(part);
  const prism: Prism = { outer, holes, from, to: from + thicknessOf(part), tones };
  const copper = part.form === 'board' ? part.copper.top.flatMap((one) => copperRing(one, cut)) : [];
  const edges = (folded?.edges ?? []).flatMap((edge) => edgePrism(edge, window, tones) ?? []);
  // Edges at the far sides first: what stands in front covers them.
  const [far, near] = [edges.filter(({ at }) => at === 'far'), edges.filter(({ at }) => at === 'near')];
  const body = solid([...far.map((one) => one.prism), prism, ...near.map((one) => one.prism)]);
  return { ...asShown(piece, body), centre: placement.at, copper };
}

/** A folded edge inside the window, and whether it stands on a far side of the face (left or top) or a near one. */
function edgePrism(
  { from, to, lowMm, highMm, side }: FoldedEdge,
  window: Bounds,
  tones: Tones,
): { readonly at: 'far' | 'near'; readonly prism: Prism } | undefined {
  const corners = boxCorners({ minX: from.x, maxX: to.x, minY: from.y, maxY: to.y });
  const outer = clipPolygon(corners, boxCorners(window));
  if (outer.length < 3) return undefined;
  const at = side === 'right' || side === 'top' ? 'far' : 'near';
  return { at, prism: { outer, holes: [], from: lowMm, to: highMm, tones } };
}

/** Patches and strips a shade darker than the reflector they stand over. */
function flatTones(part: Extract<Part, { form: 'plate' | 'board' }>): Tones {
  const tones = part.form === 'plate' ? tonesOf(part.sheet.material.name) : TONES.laminate;
  return part.role === 'reflector' ? tones : { ...tones, light: blend(tones.light, tones.mid, 0.6) };
}

function copperRing(piece: CopperPiece, cut: (contour: Contour) => readonly Point[]): Shown['copper'] {
  const ring = cut(piece.contour);
  return ring.length > 2 ? [{ ring, dark: piece.polarity === 'dark' }] : [];
}

function showBar(
  piece: Piece,
  window: Bounds,
  bar: { readonly points: readonly Point3[]; readonly diameterMm: number; readonly material: string },
): Shown | undefined {
  const tones = tonesOf(bar.material);
  const bars = insidePieces(bar.points, window).map((points) => ({ points, diameterMm: bar.diameterMm, tones }));
  const heights = bars.flatMap((one) => one.points.map((point) => point.z));
  if (heights.length === 0) return undefined;
  const half = bar.diameterMm / 2;
  const [fromMm, toMm] = [Math.min(...heights) - half, Math.max(...heights) + half];
  return { piece, centre: piece.placement.at, fromMm, toMm, solid: undefined, copper: [], bars };
}

/** The stretches of a line that lie over the window. */
function insidePieces(points: readonly Point3[], window: Bounds): readonly (readonly Point3[])[] {
  const stretches: Point3[][] = [];
  let current: Point3[] = [];
  points.slice(1).forEach((to, index) => {
    const from = points[index] ?? to;
    const part = clipStretch(from, to, window);
    if (part === undefined) return;
    const [a, b] = part.map((at) => along(from, to, at)) as [Point3, Point3];
    if (part[0] > 0 || current.length === 0) {
      current = [a];
      stretches.push(current);
    }
    current.push(b);
    if (part[1] < 1) current = [];
  });
  return stretches;
}

/** An upright stretch has no length seen from in front, so it is in or out by its place alone. */
function clipStretch(from: Point3, to: Point3, window: Bounds): readonly [number, number] | undefined {
  if (Math.hypot(to.x - from.x, to.y - from.y) > 1e-9) return clipLine(from, to, window);
  const inside = from.x > window.minX && from.x < window.maxX && from.y > window.minY && from.y < window.maxY;
  return inside ? [0, 1] : undefined;
}

const along = (from: Point3, to: Point3, part: number): Point3 => ({
  x: from.x + (to.x - from.x) * part,
  y: from.y + (to.y - from.y) * part,
  z: from.z + (to.z - from.z) * part,
});
