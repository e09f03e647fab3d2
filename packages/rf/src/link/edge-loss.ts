import { doubleEdgeLossDb } from './double-edge.ts';
import { CLEAR_PARAMETER, knifeEdgeLossDb, knifeEdgeParameter } from './knife-edge.ts';
import { type TerrainPath, terrainLossDb } from './terrain-diffraction.ts';

/** Which part of ITU-R P.526-15 a loss is by: nothing in the way, 4.1, 4.4 or 4.5.2. */
export type EdgeMethod = 'clear' | 'single edge' | 'two edges' | 'terrain';

/** What stands in the way or comes near it. */
export interface MetEdge {
  readonly atM: number;
  /** Of its top, the bulge of the earth in it. */
  readonly heightM: number;
  /** Fresnel-Kirchhoff parameter over the whole path. */
  readonly parameter: number;
}

export interface EdgeLoss {
  readonly lossDb: number;
  readonly method: EdgeMethod;
  /** In order along the path; of terrain the one that reaches furthest into it. */
  readonly edges: readonly MetEdge[];
}

/**
 * Diffraction loss of a profile by what ITU-R P.526-15 has for it: a single isolated edge (section 4.1), two isolated edges (4.4), and for
 * anything more, such as a hill of many points, the method for general terrain (4.5.2). Points whose parameter is -0.78 or below do not count.
 */
export function edgeLoss(path: TerrainPath): EdgeLoss {
  const met = metEdges(path);
  const [first, second, ...more] = met;
  if (first === undefined) return { lossDb: 0, method: 'clear', edges: [] };
  if (second === undefined) return { lossDb: knifeEdgeLossDb(first.parameter), method: 'single edge', edges: met };
  if (more.length === 0) return { lossDb: twoEdgesDb(path, first, second), method: 'two edges', edges: met };
  const main = met.reduce((a, b) => (b.parameter > a.parameter ? b : a), first);
  return { lossDb: terrainLossDb(path), method: 'terrain', edges: [main] };
}

function metEdges({ nearM, farM, points, freqHz, earthRadiusM }: TerrainPath): MetEdge[] {
  const lengthM = points.at(-1)?.atM ?? 0;
  return points.flatMap(({ atM, heightM }): MetEdge[] => {
    const rest = lengthM - atM;
    if (atM <= 0 || rest <= 0) return [];
    const topM = heightM + (atM * rest) / (2 * earthRadiusM);
    const parameter = knifeEdgeParameter(topM - lineM({ nearM, farM }, atM / lengthM), atM, rest, freqHz);
    return parameter > CLEAR_PARAMETER ? [{ atM, heightM: topM, parameter }] : [];
  });
}

const lineM = ({ nearM, farM }: Pick<TerrainPath, 'nearM' | 'farM'>, share: number): number =>
  nearM + (farM - nearM) * share;

function twoEdgesDb(path: TerrainPath, first: MetEdge, second: MetEdge): number {
  const lengthM = path.points.at(-1)?.atM ?? 0;
  const above = ({ atM, heightM }: MetEdge) => heightM - lineM(path, atM / lengthM);
  return doubleEdgeLossDb({
    toFirstM: first.atM,
    betweenM: second.atM - first.atM,
    fromSecondM: lengthM - second.atM,
    firstAboveM: above(first),
    secondAboveM: above(second),
    freqHz: path.freqHz,
  });
}
