import type { Grid } from './grid.ts';
import type { ComplexField, Face, FaceFields } from './surface-sampler.ts';
import type { Axis } from './update.ts';

/** One component of the equivalent currents on a face, times area, at a few nodes; index b * countU + a. */
export interface NodeCurrent extends ComplexField {
  readonly kind: 'electric' | 'magnetic';
  readonly along: Axis;
}

/** The currents of a face as far as waves of one length can tell: carried over to the nodes of an interpolation. */
export interface NodeFace {
  readonly face: Face;
  /** m, of the nodes along both axes of the face. */
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly currents: readonly NodeCurrent[];
}

/** u x v points along the normal for x and z, against it for y. */
export const handed = (normal: Axis) => (normal === 'y' ? -1 : 1);

/**
 * Currents J = n x H and M = -n x E of a face at few nodes, so that sums of them with exp(jk r.r') for any direction are
 * those over all cells, to 1e-6. A phase factor along an axis is a polynomial in the place to that accuracy; its sum over
 * the cells is then a sum over the nodes of the polynomial, whatever the number of cells.
 */
export function nodeFace(grid: Grid, fields: FaceFields, waveNumber: number): NodeFace {
  const { face } = fields;
  const u = axisNodes(grid.lines[face.u], face.rangeU, waveNumber);
  const v = axisNodes(grid.lines[face.v], face.rangeV, waveNumber);
  const turn = face.outward * handed(face.normal);
  // With u x v along n: J = n x H has J_u = -H_v, J_v = H_u; M = -n x E has M_u = E_v, M_v = -E_u.
  const parts = [
    [fields.hv, -turn, 'electric', face.u],
    [fields.hu, turn, 'electric', face.v],
    [fields.ev, turn, 'magnetic', face.u],
    [fields.eu, -turn, 'magnetic', face.v],
  ] as const;
  const currents = parts.map(([{ re, im }, sign, kind, along]) => ({
    kind,
    along,
    re: carryOver(re, { u, v, sign }),
    im: carryOver(im, { u, v, sign }),
  }));
  return { face, u: u.places, v: v.places, currents };
}

interface AxisNodes {
  readonly places: Float64Array;
  readonly cells: number;
  /** Length of cell c times the share of node n in its middle; index c * places.length + n. */
  readonly weights: Float64Array;
}

/** Nodes beyond one for each radian of half the range of phases: what is left out falls faster than any power. */
const MORE_NODES = 10;
const NODES_A_RADIAN = 1.3;

function axisNodes(lines: Float64Array, [from, to]: readonly [number, number], waveNumber: number): AxisNodes {
  const cells = to - from;
  const [low, high] = [lines[from] as number, lines[to] as number];
  const count = Math.ceil((NODES_A_RADIAN * waveNumber * (high - low)) / 2 + MORE_NODES);
  const middles = Float64Array.from(
    { length: cells },
    (_, c) => ((lines[from + c] as number) + (lines[from + c + 1] as number)) / 2,
  );
  const lengths = Float64Array.from(
    { length: cells },
    (_, c) => (lines[from + c + 1] as number) - (lines[from + c] as number),
  );
  if (count >= cells) {
    const weights = new Float64Array(cells * cells);
    lengths.forEach((length, c) => {
      weights[c * cells + c] = length;
    });
    return { places: middles, cells, weights };
  }
  // Roots of a Chebyshev polynomial, and their weights in the barycentric formula
  // (J.-P. Berrut and L. N. Trefethen, SIAM Review 46 (2004) 501, eq. 4.2 and 5.3).
  const angles = Float64Array.from({ length: count }, (_, n) => ((2 * n + 1) * Math.PI) / (2 * count));
  const places = angles.map((angle) => (low + high) / 2 - ((high - low) / 2) * Math.cos(angle));
  const shares = angles.map((angle, n) => (n % 2 === 0 ? 1 : -1) * Math.sin(angle));
  const weights = new Float64Array(cells * count);
  middles.forEach((middle, c) => {
    const row = weights.subarray(c * count, (c + 1) * count);
    const same = places.indexOf(middle);
    if (same >= 0) row[same] = lengths[c] as number;
    else {
      places.forEach((place, n) => {
        row[n] = (shares[n] as number) / (middle - place);
      });
      const sum = row.reduce((total, value) => total + value, 0);
      for (let n = 0; n < count; n++) row[n] = ((row[n] as number) * (lengths[c] as number)) / sum;
    }
  });
  return { places, cells, weights };
}

/** First along u, then along v. */
function carryOver(values: Float64Array, { u, v, sign }: { u: AxisNodes; v: AxisNodes; sign: number }): Float64Array {
  const [countU, countV] = [u.places.length, v.places.length];
  const out = new Float64Array(countU * countV);
  const row = new Float64Array(countU);
  for (let b = 0; b < v.cells; b++) {
    row.fill(0);
    for (let a = 0; a < u.cells; a++)
      addScaled(row, 0, u.weights.subarray(a * countU, (a + 1) * countU), values[b * u.cells + a] as number);
    for (let q = 0; q < countV; q++) addScaled(out, q * countU, row, sign * (v.weights[b * countV + q] as number));
  }
  return out;
}

function addScaled(target: Float64Array, start: number, source: Float64Array, factor: number): void {
  for (let n = 0; n < source.length; n++)
    target[start + n] = (target[start + n] as number) + factor * (source[n] as number);
}
