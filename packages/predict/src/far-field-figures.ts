import type { Design, Hand, Orientation } from '@sheetwave/design';
import {
  beamwidth,
  type Cut,
  cutThrough,
  decibels,
  type FarFieldResult,
  frontToBack,
  type Pattern,
  type Polarisation,
  polarisedPart,
  sideLobe,
} from '@sheetwave/field';
import { circularHand } from '@sheetwave/geometry';
import type { FarFieldFigures, PatternCut } from './prediction.ts';

/** Below this a cut shows rounding, dBi. */
const FLOOR_DBI = -60;

const DEGREES = 180 / Math.PI;

/** The polarisation that is wanted of an antenna: along its patches, or a hand. */
function wantedPolarisation(design: Design): WantedPolarisation {
  return design.targets.polarisation ?? circularHand(design) ?? design.lattice.orientation;
}

type WantedPolarisation = Orientation | Hand;

/**
 * The wanted polarisation and the one across it, in a direction of this phi. Linear: A. C. Ludwig's third definition (IEEE Trans.
 * AP-21 (1973) 116), y = (sin phi, cos phi), x = (cos phi, -sin phi). Circular: right-hand is (1, -j)/sqrt 2 for exp(j w t).
 */
function polarisationPair(wanted: WantedPolarisation, phi: number): readonly [Polarisation, Polarisation] {
  const linear = (thetaRe: number, phiRe: number): Polarisation => ({ thetaRe, thetaIm: 0, phiRe, phiIm: 0 });
  const round = (phiIm: number): Polarisation => ({ thetaRe: Math.SQRT1_2, thetaIm: 0, phiRe: 0, phiIm });
  const vertical = linear(Math.sin(phi), Math.cos(phi));
  const horizontal = linear(Math.cos(phi), -Math.sin(phi));
  const [right, left] = [round(-Math.SQRT1_2), round(Math.SQRT1_2)];
  switch (wanted) {
    case 'vertical':
      return [vertical, horizontal];
    case 'horizontal':
      return [horizontal, vertical];
    case 'right-hand':
      return [right, left];
    case 'left-hand':
      return [left, right];
  }
}

/** Gains of the two polarisations at an index of the pattern, dBi. */
function gainsAt(result: FarFieldResult, wanted: WantedPolarisation, index: number): readonly [number, number] {
  const { pattern, efficiency } = result;
  const phi = pattern.phi[index % pattern.phi.length] ?? 0;
  const [co, cross] = polarisationPair(wanted, phi).map((p) => decibels(efficiency * polarisedPart(pattern, index, p)));
  return [Math.max(FLOOR_DBI, co ?? FLOOR_DBI), Math.max(FLOOR_DBI, cross ?? FLOOR_DBI)];
}

/** Phi of the half of a principal plane where positive angles lie, degrees. Seen from behind, right is -x. */
const PLANES = { vertical: 90, horizontal: 180 } as const;

/** A great circle through straight ahead: gains of both polarisations. */
export function patternCut(result: FarFieldResult, design: Design, plane: 'vertical' | 'horizontal'): PatternCut {
  const { pattern } = result;
  const wanted = wantedPolarisation(design);
  const columns = pattern.phi.length;
  const positive = Math.round((PLANES[plane] / 360) * columns);
  const negative = (positive + columns / 2) % columns;
  const rings = [...pattern.theta.keys()];
  const places = [
    ...rings
      .slice(1)
      .reverse()
      .map((ring) => ({ ring, column: negative, sign: -1 })),
    ...rings.map((ring) => ({ ring, column: positive, sign: 1 })),
  ];
  const gains = places.map(({ ring, column: c }) => gainsAt(result, wanted, ring * columns + c));
  return {
    freqHz: pattern.freqHz,
    port: pattern.port,
    plane,
    angleDeg: places.map(({ ring, sign }) => sign * DEGREES * (pattern.theta[ring] ?? 0)),
    coDbi: gains.map(([co]) => co),
    crossDbi: gains.map(([, cross]) => cross),
  };
}

/** All numbers of one far field. */
export function farFieldFigures(result: FarFieldResult, design: Design): FarFieldFigures {
  const { pattern, balance, efficiency } = result;
  const [vertical, horizontal] = [totalCut(pattern, 'vertical'), totalCut(pattern, 'horizontal')];
  const peakIndex =
    pattern.theta.indexOf(pattern.peak.theta) * pattern.phi.length + pattern.phi.indexOf(pattern.peak.phi);
  const [co, cross] = gainsAt(result, wantedPolarisation(design), peakIndex);
  const sides = [sideLobe(vertical), sideLobe(horizontal)].filter((level) => level !== undefined);
  return {
    freqHz: pattern.freqHz,
    port: pattern.port,
    directivityDbi: pattern.directivityDbi,
    gainDbi: result.gainDbi,
    realisedGainDbi: result.realisedGainDbi,
    gainAheadDbi: decibels(efficiency * ((pattern.thetaPart[0] ?? 0) + (pattern.phiPart[0] ?? 0))),
    beam: beamOf(pattern),
    beamwidthVerticalDeg: widthOf(vertical),
    beamwidthHorizontalDeg: widthOf(horizontal),
    frontToBackDb: frontToBack(pattern),
    sideLobeDb: sides.length === 0 ? undefined : Math.min(...sides),
    crossPolarisationDb: co - cross,
    efficiency,
    balance: { radiated: balance.radiated, metal: balance.metal, rest: balance.rest },
  };
}

const totalCut = (pattern: Pattern, plane: keyof typeof PLANES): Cut => cutThrough(pattern, PLANES[plane] / DEGREES);

/** Half-power width of a cut, degrees. */
function widthOf(cut: Cut): number | undefined {
  const width = beamwidth(cut);
  return width === undefined ? undefined : width * DEGREES;
}

/** Angles of the main beam from straight ahead, in the two principal planes. */
function beamOf({ peak: { theta, phi } }: Pattern): FarFieldFigures['beam'] {
  const [x, y, z] = [Math.sin(theta) * Math.cos(phi), Math.sin(theta) * Math.sin(phi), Math.cos(theta)];
  return { rightDeg: DEGREES * Math.atan2(-x, z) + 0, upDeg: DEGREES * Math.atan2(y, Math.hypot(x, z)) + 0 };
}
