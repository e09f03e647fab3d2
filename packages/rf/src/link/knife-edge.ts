import { wavelength } from '../constants.ts';
import { requireFinite, requirePositive } from '../require.ts';

/** A thin opaque edge across the path. */
export interface Edge {
  /** From the near end, m. */
  readonly atM: number;
  /** Of its top, in the same frame as the ends' heights; the bulge of the earth already added. */
  readonly heightM: number;
}

/** A path in a plane: both antennas and what stands between them, in rising order of `atM`. */
export interface EdgePath {
  readonly distanceM: number;
  readonly nearHeightM: number;
  readonly farHeightM: number;
  readonly edges: readonly Edge[];
  readonly freqHz: number;
}

/** Below this parameter an edge costs nothing (ITU-R P.526-15, below equation 31). */
const CLEAR = -0.78;

/**
 * Fresnel-Kirchhoff parameter of an edge that rises h above the line between two points d1 and d2 away (negative: below):
 * h sqrt(2 (d1 + d2) / (lambda d1 d2)) (ITU-R P.526-15, equation 26).
 */
export function knifeEdgeParameter(aboveM: number, toNearM: number, toFarM: number, freqHz: number): number {
  requireFinite({ aboveM });
  requirePositive({ toNearM, toFarM, freqHz });
  return aboveM * Math.sqrt((2 * (toNearM + toFarM)) / (wavelength(freqHz) * toNearM * toFarM));
}

/** Loss at a single knife edge, dB: 6.9 + 20 log10(sqrt((v - 0.1)^2 + 1) + v - 0.1) above v = -0.78, else 0 (ITU-R P.526-15, equation 31). */
export function knifeEdgeLossDb(parameter: number): number {
  requireFinite({ parameter });
  if (parameter <= CLEAR) return 0;
  const shifted = parameter - 0.1;
  return Math.max(0, 6.9 + 20 * Math.log10(Math.sqrt(shifted * shifted + 1) + shifted));
}

interface Ends {
  readonly from: Edge;
  readonly to: Edge;
}

interface Met extends Edge {
  readonly parameter: number;
}

/** The edge with the largest parameter between two points, or undefined when there is none. */
function principal({ from, to }: Ends, { edges, freqHz }: Pick<EdgePath, 'edges' | 'freqHz'>): Met | undefined {
  let best: Met | undefined;
  for (const edge of edges) {
    if (edge.atM <= from.atM || edge.atM >= to.atM) continue;
    const [d1, d2] = [edge.atM - from.atM, to.atM - edge.atM];
    const line = from.heightM + ((to.heightM - from.heightM) * d1) / (d1 + d2);
    const parameter = knifeEdgeParameter(edge.heightM - line, d1, d2, freqHz);
    if (best === undefined || parameter > best.parameter) best = { ...edge, parameter };
  }
  return best;
}

/** Loss over up to three edges, and which they are, the principal one first. */
export interface EdgeLoss {
  readonly lossDb: number;
  readonly edges: readonly (Edge & { readonly parameter: number; readonly lossDb: number })[];
}

/**
 * Loss over several edges after Deygout (IEEE Trans. AP-14 (1966) 480), in the smooth form of the cascaded edges of ITU-R P.526 section 4.5:
 * J(principal) + T (J(near side) + J(far side)), T = 1 - exp(-J(principal)/6). The constant 10 + 0.04 D that P.526 adds there is fitted to
 * long terrain paths and is left out: isolated edges, as on a short link, do not have it. Against exact double-edge diffraction the method
 * is a few dB too high for edges close together (Deygout 1991; memory). Empty and with 0 dB when nothing comes near the path.
 */
export function edgeLoss(path: EdgePath): EdgeLoss {
  const { near, far } = endsOf(path);
  const main = principal({ from: near, to: far }, path);
  if (main === undefined || main.parameter <= CLEAR) return { lossDb: 0, edges: [] };
  const first = { ...main, lossDb: knifeEdgeLossDb(main.parameter) };
  const weight = 1 - Math.exp(-first.lossDb / 6);
  const sides = [principal({ from: near, to: main }, path), principal({ from: main, to: far }, path)]
    .filter((edge) => edge !== undefined)
    .filter((edge) => edge.parameter > CLEAR)
    .map((edge) => ({ ...edge, lossDb: weight * knifeEdgeLossDb(edge.parameter) }));
  const edges = [first, ...sides];
  return { lossDb: edges.reduce((sum, edge) => sum + edge.lossDb, 0), edges };
}

/**
 * Loss of a whole profile by one equivalent edge where the horizons of both ends cross (Bullington 1947), with the correction for terrain of
 * ITU-R P.526-15 section 4.5.1: L + (1 - exp(-L/6)) (10 + 0.02 d km). Meant for long paths over terrain; on short ones an upper value.
 */
export function bullingtonLossDb(path: EdgePath): number {
  const { near, far } = endsOf(path);
  const { distanceM, edges, freqHz } = path;
  if (edges.length === 0) return 0;
  const inside = edges.filter(({ atM }) => atM > 0 && atM < distanceM);
  const up = Math.max(...inside.map((edge) => (edge.heightM - near.heightM) / edge.atM));
  const line = (far.heightM - near.heightM) / distanceM;
  const back = Math.max(...inside.map((edge) => (edge.heightM - far.heightM) / (distanceM - edge.atM)));
  const single = up < line ? clearedLoss(path, inside) : crossedLoss();
  return single + (1 - Math.exp(-single / 6)) * (10 + 0.02 * (distanceM / 1000));

  function crossedLoss(): number {
    const atM = (far.heightM - near.heightM + back * distanceM) / (up + back);
    const above = near.heightM + up * atM - (near.heightM + line * atM);
    return knifeEdgeLossDb(knifeEdgeParameter(above, atM, distanceM - atM, freqHz));
  }
}

function clearedLoss(path: EdgePath, edges: readonly Edge[]): number {
  const { near, far } = endsOf(path);
  const main = principal({ from: near, to: far }, { edges, freqHz: path.freqHz });
  return main === undefined ? 0 : knifeEdgeLossDb(main.parameter);
}

function endsOf({ distanceM, nearHeightM, farHeightM }: EdgePath): { readonly near: Edge; readonly far: Edge } {
  requirePositive({ distanceM });
  requireFinite({ nearHeightM, farHeightM });
  return { near: { atM: 0, heightM: nearHeightM }, far: { atM: distanceM, heightM: farHeightM } };
}
