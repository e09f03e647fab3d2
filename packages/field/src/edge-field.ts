/**
 * The static field beside an edge of metal, from which the sub-cell factors of the grid are made. Around an edge the
 * potential is Im(w^p) times a constant, w = d + iz turned so that it vanishes on the metal: p = 1/2 for a sheet without
 * thickness, 2/3 for a right-angled corner, 1 for a flat wall (J. Van Bladel, Singular Electromagnetic Fields and
 * Sources, 1991, chapter 4; J. Meixner, IEEE Trans. AP-20 (1972) 442). The same function serves for the electric field
 * across the edge and for the magnetic field around it, because both are potentials that vanish on the metal.
 */
export type EdgeKind = 'thin' | 'corner' | 'wall';

/** Heights of the half cells on both sides of the plane; of a corner, `inner` lies beside the metal. m. */
export interface HalfCells {
  readonly inner: number;
  readonly outer: number;
}

/** Potential at the distance d (m, not below 0) outside the edge in the plane of the metal. */
export function edgePotential(kind: EdgeKind, d: number): number {
  if (kind === 'thin') return Math.sqrt(d);
  return kind === 'wall' ? d : Math.sin(Math.PI / 3) * d ** (2 / 3);
}

/** Flux through a line across the plane at the distance d (negative: beyond the edge, over the metal). */
export function edgeFlux(kind: EdgeKind, d: number, { inner, outer }: HalfCells): number {
  if (kind === 'wall') return inner + outer;
  if (kind === 'thin') return rootImaginary(d, inner) + rootImaginary(d, outer);
  // Over the metal the inner half is shut, but what leaves the wall below still passes to the free node.
  const start = d < 0 ? inner ** (2 / 3) - Math.abs(d) ** (2 / 3) : cornerReal(d, -inner);
  return start - cornerReal(d, outer);
}

/** Im sqrt(d + ih). */
const rootImaginary = (d: number, h: number) => Math.sqrt((Math.hypot(d, h) - d) / 2);

/** Re (w^(2/3) e^(i pi/3)) at w = d + iz; above the metal of a corner that fills d < 0, z < 0 the real part is negative. */
function cornerReal(d: number, z: number): number {
  const radius = Math.hypot(d, z);
  return radius ** (2 / 3) * Math.cos((2 / 3) * Math.atan2(z, d) + Math.PI / 3);
}

/** One edge of the grid between a node on metal and a free one. Lengths in m. */
export interface CrossingEdge {
  readonly kind: EdgeKind;
  /** Signed distances of the two nodes from the metal. */
  readonly metal: number;
  readonly free: number;
  readonly length: number;
  /** Width of the dual face in the plane. */
  readonly width: number;
  readonly half: HalfCells;
}

const FACTOR_LIMITS = [0.45, 2.6] as const;
const limit = (value: number) => Math.min(FACTOR_LIMITS[1], Math.max(FACTOR_LIMITS[0], value));

const STEPS: readonly number[] = [-0.4, -0.2, 0, 0.2, 0.4];

/**
 * Capacitance of a crossing edge, relative to that of the same edge in free space: flux through its dual face over the
 * voltage from the metal to its free node. Limited to 0.45 to 2.6, which keeps the scheme stable.
 */
export function crossingFactor({ kind, metal, free, length, width, half }: CrossingEdge): number {
  const across = Math.min(1, Math.max(0.25, (free - metal) / length));
  const along = Math.sqrt(1 - across * across);
  const middle = (metal + free) / 2;
  const flux = STEPS.reduce((sum, s) => sum + edgeFlux(kind, middle + s * along * width, half), 0) / STEPS.length;
  return limit((across * flux * length) / ((half.inner + half.outer) * edgePotential(kind, free)));
}

/** One face of the grid in the plane of the metal, cut by the edge. */
export interface CutFace {
  readonly kind: EdgeKind;
  /** Signed distances of the corners (u, v), (u+1, v), (u, v+1), (u+1, v+1). */
  readonly corners: readonly [number, number, number, number];
  /** Nodes within this distance outside the metal count as metal, m. */
  readonly reach: number;
  readonly half: HalfCells;
}

const SHARES: readonly number[] = [0.1, 0.3, 0.5, 0.7, 0.9];

/** Magnetomotive force over flux of a cut face, relative to the same face in free space. Limited like the edges. */
export function cutFaceFactor({ kind, corners, reach, half }: CutFace): number {
  const [a, b, c, d] = corners;
  const alongU = Math.abs(b - a) + Math.abs(d - c);
  const alongV = Math.abs(c - a) + Math.abs(d - b);
  const [p, q, r, s] = alongU >= alongV ? [a, b, c, d] : [a, c, b, d];
  const density =
    SHARES.reduce((sum, t) => sum + meanSlope(kind, p + t * (r - p), q + t * (s - q), reach), 0) / SHARES.length;
  if (density <= 0) return 1;
  const force = edgeFlux(kind, (a + b + c + d) / 4, half) / (half.inner + half.outer);
  return limit(force / density);
}

/** Mean of the slope of the potential between two distances, 0 on metal. */
function meanSlope(kind: EdgeKind, from: number, to: number, reach: number): number {
  if (Math.abs(to - from) < 1e-12) return 0;
  const potential = (d: number) => (d <= reach ? 0 : edgePotential(kind, d));
  return Math.abs((potential(to) - potential(from)) / (to - from));
}

/** Upright edges and faces that stand on the plane of the metal, on its outer side. Lengths in m. */
export interface UprightPlace {
  readonly kind: EdgeKind;
  /** Signed distance of the foot from the metal. */
  readonly distance: number;
  /** Height of the cell. */
  readonly height: number;
  /** Width of the dual cell along the normal of the edge. */
  readonly width: number;
  /** Whether the foot counts as metal. */
  readonly onMetal: boolean;
}

/** Flux over potential of an upright edge beside an edge of metal, relative to the same edge far from it. */
export function uprightFactor({ kind, distance, height, width, onMetal }: UprightPlace): number {
  if (kind === 'wall') return 1;
  const foot = onMetal ? 0 : edgePotential(kind, Math.max(0, distance));
  const potential = potentialAbove(kind, distance, height) - foot;
  const flux =
    fluxFunction(kind, distance - width / 2, height / 2) - fluxFunction(kind, distance + width / 2, height / 2);
  if (!(potential > 0) || !(flux > 0)) return 1;
  return limit((flux * height) / (potential * width));
}

function potentialAbove(kind: EdgeKind, d: number, z: number): number {
  if (kind === 'thin') return Math.sqrt((Math.hypot(d, z) + d) / 2);
  return Math.hypot(d, z) ** (2 / 3) * Math.sin((2 / 3) * Math.atan2(z, d) + Math.PI / 3);
}

const fluxFunction = (kind: EdgeKind, d: number, z: number) =>
  kind === 'thin' ? rootImaginary(d, z) : -cornerReal(d, z);

/** Edge of the grid in the plane, outside the metal but near it: distances of its two nodes. */
export function outerFactor({ kind, metal, free, length, width, half }: CrossingEdge): number {
  const across = Math.abs(free - metal) / length;
  if (across < 0.25 || kind === 'wall') return 1;
  const along = Math.sqrt(Math.max(0, 1 - across * across));
  const middle = (metal + free) / 2;
  const flux = STEPS.reduce((sum, s) => sum + edgeFlux(kind, middle + s * along * width, half), 0) / STEPS.length;
  const potential = Math.abs(edgePotential(kind, free) - edgePotential(kind, metal));
  return limit((Math.min(1, across) * flux * length) / ((half.inner + half.outer) * potential));
}
