import { type ArrayElement, linePower, normalisedArrayPower, type Run } from './array-factor.ts';
import { toDecibels, wavelength } from './constants.ts';
import { absoluteError, type Estimate, estimate, outside } from './estimate.ts';
import { type Direction, patchPattern, type RadiatingPatch } from './patch-pattern.ts';
import { gaussLegendre } from './quadrature.ts';
import { requireBetween, requireCount, requirePositive } from './require.ts';

type Pattern = (at: Direction) => number;

/** Nodes that resolve a pattern of a panel of this many wavelengths across. */
const nodesFor = (sizeWavelengths: number): number => 48 + Math.ceil(12 * sizeWavelengths);

/**
 * Integral of a power pattern over the half space in front: Gauss-Legendre in the cosine of the angle, trapezoid around.
 * `sizeWavelengths` is the largest extent of the antenna.
 */
export function radiatedPower(pattern: Pattern, sizeWavelengths: number): number {
  const rings = gaussLegendre(nodesFor(sizeWavelengths));
  const around = 2 * nodesFor(sizeWavelengths);
  const angles = Array.from({ length: around }, (_, i) => (2 * Math.PI * (i + 0.5)) / around);
  const turns = angles.map((phi) => ({ cos: Math.cos(phi), sin: Math.sin(phi) }));
  return rings.nodes.reduce((sum, node, i) => {
    const cosine = (node + 1) / 2;
    const sine = Math.sqrt(1 - cosine * cosine);
    const ring = turns.reduce((part, { cos, sin }) => part + pattern({ u: sine * cos, v: sine * sin }), 0);
    return sum + (((rings.weights[i] ?? 0) / 2) * (ring * 2 * Math.PI)) / around;
  }, 0);
}

const LEAVES_OUT = [
  'Loss.',
  'The edge of the reflector: about 1 dB of ripple, and the back lobe.',
  'Parasitic patches above the driven ones.',
];

/** Directivity (dBi) of one patch straight ahead, by quadrature of `patchPattern`. */
export function patchDirectivity(patch: RadiatingPatch, freqHz: number): Estimate {
  const size = Math.max(patch.widthM, patch.lengthM) / wavelength(freqHz);
  return estimate({
    value: toDecibels((4 * Math.PI) / radiatedPower(patchPattern(patch, freqHz), size)),
    unit: 'dBi',
    error: absoluteError(1, 'The edge of a reflector of usual size moves it by about 1 dB (from memory).'),
    leavesOut: LEAVES_OUT,
    limits: [outside('The length in wavelengths', patch.lengthM / wavelength(freqHz), 0, 0.6)],
  });
}

/** Patches on a lattice, all fed alike. m. */
export interface PatchArray {
  readonly patch: RadiatingPatch;
  readonly freqHz: number;
  /** Columns: along the patches' length, the plane of their electric field. */
  readonly alongLength: Run;
  /** Rows: along the patches' width. */
  readonly alongWidth: Run;
}

function checkArray({ alongLength, alongWidth, freqHz }: PatchArray): void {
  requireCount({ 'alongLength.count': alongLength.count, 'alongWidth.count': alongWidth.count });
  requirePositive({ 'alongLength.pitchM': alongLength.pitchM, 'alongWidth.pitchM': alongWidth.pitchM, freqHz });
}

const extent = ({ count, pitchM }: Run): number => count * pitchM;

const sizeInWavelengths = (array: PatchArray): number =>
  Math.hypot(extent(array.alongLength), extent(array.alongWidth)) / wavelength(array.freqHz);

/** Power pattern of an array, 1 where all elements agree straight ahead: element times array factor, without coupling. */
export function arrayPattern({ patch, freqHz }: PatchArray, elements: readonly ArrayElement[]): Pattern {
  const element = patchPattern(patch, freqHz);
  const array = normalisedArrayPower(elements, freqHz);
  return (at) => element(at) * array(at);
}

/**
 * The same for a whole lattice fed alike, its beam turned to `scan`. A lattice is the product of two lines, so a direction
 * costs the same however many elements there are.
 */
export function latticePattern({ patch, freqHz, alongLength, alongWidth }: PatchArray, scan: Direction): Pattern {
  const element = patchPattern(patch, freqHz);
  const length = linePower(freqHz, alongLength, scan.u);
  const width = linePower(freqHz, alongWidth, scan.v);
  return (at) => element(at) * length(at.u) * width(at.v);
}

const ARRAY_ERROR = absoluteError(
  1.2,
  'Pattern multiplication: 1 dB for the edge of the reflector and a few tenths for coupling between patches (from memory).',
);

const ARRAY_GAPS = [...LEAVES_OUT, 'Coupling between the patches.', 'Loss and errors of the feed harness.'];

/** Directivity (dBi) of an array towards `scan` (straight ahead when left out), its beam turned there by phase. */
export function patchArrayDirectivity(array: PatchArray, scan: Direction = { u: 0, v: 0 }): Estimate {
  checkArray(array);
  requireBetween('The sine of the scan', Math.hypot(scan.u, scan.v), { low: 0, high: 1, inclusive: true });
  return ofPattern(array, latticePattern(array, scan), scan);
}

interface Excitation {
  readonly elements: readonly ArrayElement[];
  readonly towards: Direction;
}

/** The same for elements with any weights, as a harness delivers them. */
export function directivityOf(array: PatchArray, { elements, towards }: Excitation): Estimate {
  checkArray(array);
  return ofPattern(array, arrayPattern(array, elements), towards);
}

function ofPattern(array: PatchArray, pattern: Pattern, towards: Direction): Estimate {
  const power = radiatedPower(pattern, sizeInWavelengths(array));
  const lambda = wavelength(array.freqHz);
  return estimate({
    value: toDecibels((4 * Math.PI * pattern(towards)) / power),
    unit: 'dBi',
    error: ARRAY_ERROR,
    leavesOut: ARRAY_GAPS,
    limits: [pitchReason(array.alongLength, lambda), pitchReason(array.alongWidth, lambda)],
  });
}

const pitchReason = ({ count, pitchM }: Run, lambda: number): string | undefined =>
  count === 1 ? undefined : outside('The pitch in wavelengths', pitchM / lambda, 0.45, 1);

/** Directivity (a ratio) of an aperture lit evenly: 4 pi A/lambda^2, the bound that a large array tends to. m^2, Hz. */
export function apertureDirectivity(areaM2: number, freqHz: number): number {
  requirePositive({ areaM2, freqHz });
  return (4 * Math.PI * areaM2) / wavelength(freqHz) ** 2;
}

/**
 * Directivity (a ratio) of N isotropic elements in a line, fed alike: 1/D = 1/N + (2/N^2) sum (N - m) sinc(2 m d/lambda)
 * (Balanis, Antenna Theory, ch. 6).
 */
export function isotropicLineDirectivity(freqHz: number, { count, pitchM }: Run): number {
  requirePositive({ freqHz, pitchM });
  requireCount({ count });
  const step = (2 * Math.PI * pitchM) / wavelength(freqHz);
  let inverse = 1 / count;
  for (let m = 1; m < count; m += 1) {
    inverse += (2 / count ** 2) * (count - m) * (Math.sin(m * step) / (m * step));
  }
  return 1 / inverse;
}
