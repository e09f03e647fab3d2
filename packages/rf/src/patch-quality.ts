import { FREE_SPACE_IMPEDANCE, wavelength, waveNumber } from './constants.ts';
import { type Estimate, type EstimateUnit, estimate, outside, relativeError } from './estimate.ts';
import { requireBetween, requireNotNegative, requirePermittivity, requirePositive } from './require.ts';

/** A patch and what it is made of. m, Hz, ohm per square. */
export interface LossyPatch {
  readonly freqHz: number;
  readonly lengthM: number;
  readonly widthM: number;
  readonly heightM: number;
  readonly permittivity: number;
  readonly lossTangent: number;
  /** Of patch and plane, with roughness: see `surfaceResistance`. */
  readonly surfaceOhm: number;
}

/** 1/Q by where the energy goes. */
export interface LossShares {
  readonly spaceWave: number;
  readonly surfaceWave: number;
  readonly dielectric: number;
  readonly conductor: number;
}

/** What the closed forms say of a patch as a resonator. */
export interface PatchQuality {
  readonly quality: Estimate;
  /** Share of the accepted power that is radiated. */
  readonly efficiency: Estimate;
  /** At the radiating edge, at resonance, ohm. */
  readonly edgeResistance: Estimate;
  readonly shares: LossShares;
}

/** How much less a patch radiates than a short dipole of the same moment: the factor p. */
function dipoleRatio(k0W: number, k0L: number): number {
  const a2 = -0.16605;
  const a4 = 0.00761;
  const c2 = -0.0914153;
  return (
    1 +
    (a2 / 10) * k0W ** 2 +
    (a2 ** 2 + 2 * a4) * (3 / 560) * k0W ** 4 +
    (c2 / 5) * k0L ** 2 +
    ((a2 * c2) / 70) * k0W ** 2 * k0L ** 2
  );
}

/** Share of the radiated power of a horizontal dipole that does not go into the surface wave: 1 over air. */
function surfaceWaveEfficiency(k0h: number, er: number, c1: number): number {
  return 1 / (1 + (3 / 4) * Math.PI * k0h * (1 / c1) * (1 - 1 / er) ** 3);
}

/** The four shares of 1/Q (D. R. Jackson & N. G. Alexopoulos, IEEE Trans. AP-39 (1991) 407-410). */
export function lossShares(patch: LossyPatch): LossShares {
  const { freqHz, lengthM, widthM, heightM, permittivity: er, lossTangent, surfaceOhm } = patch;
  requirePositive({ freqHz, lengthM, widthM, heightM });
  requirePermittivity({ permittivity: er });
  requireNotNegative({ lossTangent, surfaceOhm });
  const k0 = waveNumber(freqHz);
  const h = heightM / wavelength(freqHz);
  const c1 = 1 - 1 / er + 0.4 / (er * er);
  const p = dipoleRatio(k0 * widthM, k0 * lengthM);
  const spaceWave = (16 / 3) * ((p * c1) / er) * (widthM / lengthM) * h;
  const kept = surfaceWaveEfficiency(k0 * heightM, er, c1);
  return {
    spaceWave,
    surfaceWave: spaceWave * (1 / kept - 1),
    dielectric: lossTangent,
    conductor: surfaceOhm / (Math.PI * FREE_SPACE_IMPEDANCE * h),
  };
}

const ORIGIN =
  'Independent field solution of patches over air with a width near the length: the quality factor within 3 %; 10 % too low at 1.7 and 38 % too high at 0.43 times the length.';

const LEAVES_OUT = ['The edge of the reflector.', 'The radiation and loss of probe, spacers and feed line.'];

function limits({ freqHz, lengthM, widthM, heightM }: LossyPatch): readonly (string | undefined)[] {
  return [
    outside('The height in wavelengths', heightM / wavelength(freqHz), 0, 0.085),
    outside('The width over the length', widthM / lengthM, 0.8, 1.35),
  ];
}

/**
 * Quality factor, efficiency and edge resistance, (4/pi) eta0 (L/W)(h/lambda) Q. Heights up to about 0.08 wavelengths,
 * widths of about 1 to 1.3 lengths. On FR-4 the efficiency comes out near 0.4: the caller should say so.
 */
export function patchQuality(patch: LossyPatch): PatchQuality {
  const shares = lossShares(patch);
  const q = 1 / (shares.spaceWave + shares.surfaceWave + shares.dielectric + shares.conductor);
  const h = patch.heightM / wavelength(patch.freqHz);
  const make = (value: number, unit: EstimateUnit, size: number): Estimate =>
    estimate({ value, unit, error: relativeError(size, ORIGIN), leavesOut: LEAVES_OUT, limits: limits(patch) });
  return {
    quality: make(q, 'ratio', 0.1),
    efficiency: make(shares.spaceWave * q, 'ratio', 0.1),
    edgeResistance: make((4 / Math.PI) * FREE_SPACE_IMPEDANCE * (patch.lengthM / patch.widthM) * h * q, 'ohm', 0.15),
    shares,
  };
}

/**
 * Relative bandwidth of a single resonator between the frequencies of this VSWR, matched at the centre:
 * (S - 1)/(Q sqrt S) (Balanis, Antenna Theory, eq. 14-88a). `vswr` above 1.
 */
export function bandwidthFromQuality(quality: number, vswr: number): number {
  requirePositive({ quality });
  requireBetween('vswr', vswr, { low: 1, high: Number.POSITIVE_INFINITY });
  return (vswr - 1) / (quality * Math.sqrt(vswr));
}

/** `bandwidthFromQuality` with the error of the quality factor carried along. */
export function patchBandwidth(patch: LossyPatch, vswr: number): Estimate {
  const { quality } = patchQuality(patch);
  return {
    ...quality,
    value: bandwidthFromQuality(quality.value, vswr),
    leavesOut: [
      ...quality.leavesOut,
      'The probe reactance, which narrows the band.',
      'Parasitic patches, which widen it.',
    ],
  };
}
