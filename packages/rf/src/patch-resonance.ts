import { SPEED_OF_LIGHT, wavelength } from './constants.ts';
import { endExtensionKirschning, sheetThicknessExtension } from './end-extension.ts';
import { type Estimate, estimate, outside, relativeError } from './estimate.ts';
import { requireNotNegative, requirePermittivity, requirePositive } from './require.ts';
import { staticStrip } from './strip-field.ts';

/** A rectangular patch; the length is the side that resonates. Lengths in m. */
export interface RectangularPatch {
  readonly lengthM: number;
  readonly widthM: number;
  /** From the plane to the patch's underside: the air gap or the dielectric. */
  readonly heightM: number;
  /** Thickness of the sheet or the copper; 0 allowed. */
  readonly sheetM: number;
  /** Relative, of what fills the height: 1 for air. */
  readonly permittivity: number;
}

type PatchWithoutLength = Omit<RectangularPatch, 'lengthM'>;

/** What a patch looks like to its wave: how much longer than cut, in what permittivity. */
export interface PatchWave {
  /** To be added at each of the two radiating edges, m. */
  readonly extensionM: number;
  readonly effectivePermittivity: number;
}

function checkPatch({ widthM, heightM, sheetM, permittivity }: PatchWithoutLength): void {
  requirePositive({ widthM, heightM });
  requireNotNegative({ sheetM });
  requirePermittivity({ permittivity });
}

/**
 * End extension (Kirschning, Jansen & Koster 1981) with what the sheet thickness adds (Hammerstad & Jensen 1980: half the
 * widening of a strip, per edge), and the quasi-static effective permittivity. The thickness term over a dielectric
 * carries the same idea over and was not checked on its own: for etched copper it is below 0.2 % of the length.
 */
export function patchWave(patch: PatchWithoutLength): PatchWave {
  checkPatch(patch);
  const { widthM, heightM, sheetM, permittivity } = patch;
  const section = { widthM, heightM, thicknessM: sheetM, permittivity };
  const { effectivePermittivity } = staticStrip(section);
  const end = endExtensionKirschning({ widthRatio: widthM / heightM, permittivity, effectivePermittivity });
  // Over a dielectric the widening shrinks as it does for a strip: by half of 1 + 1/cosh sqrt(er - 1).
  const shrink = (1 + 1 / Math.cosh(Math.sqrt(permittivity - 1))) / 2;
  const thickness = sheetThicknessExtension(heightM, sheetM) * shrink;
  return { extensionM: heightM * end + thickness, effectivePermittivity };
}

/** Length between the planes where the wave seems to turn, m: the cut length and both end extensions. */
export const effectiveLength = (patch: RectangularPatch): number => patch.lengthM + 2 * patchWave(patch).extensionM;

/** The bare closed form, Hz: c / (2 effective length sqrt(effective permittivity)). */
export function resonanceHz(patch: RectangularPatch): number {
  requirePositive({ lengthM: patch.lengthM });
  const { extensionM, effectivePermittivity } = patchWave(patch);
  return SPEED_OF_LIGHT / (2 * (patch.lengthM + 2 * extensionM) * Math.sqrt(effectivePermittivity));
}

const COMMON_GAPS = [
  'The reflector is taken as endless.',
  'The probe or feed line shifts the frequency of best match against this resonance.',
  'Parasitic patches, spacers, screws and a cover over the patch are not in it.',
];

const AIR_ERROR = relativeError(
  0.012,
  'Six patches over air and two sheet thicknesses in an independent field solution (0.9 % at most, itself good to 0.2 to 0.4 %); no measurement.',
);

const SUBSTRATE_ERROR = relativeError(
  0.02,
  'Ten measured patches with a height below 0.03 wavelengths: 1.2 % on average, nine within 2 %, one 4 % off.',
);

const error = (permittivity: number) => (permittivity === 1 ? AIR_ERROR : SUBSTRATE_ERROR);

function leavesOut(permittivity: number): readonly string[] {
  if (permittivity === 1) return COMMON_GAPS;
  return [...COMMON_GAPS, 'The spread of the permittivity: the frequency moves by about half of its relative error.'];
}

function limits(patch: RectangularPatch, freqHz: number): readonly (string | undefined)[] {
  const { lengthM, widthM, heightM, sheetM, permittivity } = patch;
  const air = permittivity === 1;
  return [
    outside('The width over the height', widthM / heightM, air ? 3 : 1, 100),
    outside('The width over the length', widthM / lengthM, 0.4, air ? 1.8 : 2.7),
    outside('The height in wavelengths', heightM / wavelength(freqHz), 0, air ? 0.085 : 0.03),
    outside('The length over the height', lengthM / heightM, 2),
    outside('The sheet thickness over the height', sheetM / heightM, 0, 0.34),
    air ? undefined : outside('The permittivity', permittivity, 2, 10.5),
  ];
}

/** Resonant frequency (Hz) of a patch, over air or a dielectric. Throws RangeError on non-physical sizes. */
export function patchResonance(patch: RectangularPatch): Estimate {
  const value = resonanceHz(patch);
  const { permittivity } = patch;
  return estimate({
    value,
    unit: 'Hz',
    error: error(permittivity),
    leavesOut: leavesOut(permittivity),
    limits: limits(patch, value),
  });
}

/** Cut length (m) for a resonance, the inverse of `patchResonance`. Throws RangeError when width and height leave no length. */
export function patchLength(freqHz: number, patch: PatchWithoutLength): Estimate {
  requirePositive({ freqHz });
  const { extensionM, effectivePermittivity } = patchWave(patch);
  const whole = SPEED_OF_LIGHT / (2 * freqHz * Math.sqrt(effectivePermittivity));
  const value = whole - 2 * extensionM;
  if (value <= 0) {
    throw new RangeError(
      `freqHz must be below ${SPEED_OF_LIGHT / (4 * extensionM * Math.sqrt(effectivePermittivity))} for this width and height, not ${freqHz}.`,
    );
  }
  const stated = error(patch.permittivity);
  return estimate({
    value,
    unit: 'm',
    // The error belongs to the frequency, so to the whole electrical length: of the cut length it is a larger share.
    error: relativeError((stated.size * whole) / value, stated.origin),
    leavesOut: leavesOut(patch.permittivity),
    limits: limits({ ...patch, lengthM: value }, freqHz),
  });
}

/** A patch of sheet metal over an air gap. Lengths in m. */
export interface AirPatch {
  readonly lengthM: number;
  readonly widthM: number;
  /** From the plane to the sheet's underside. */
  readonly gapM: number;
  readonly sheetM: number;
}

/** The same patch in the general description. */
export const overAir = ({ gapM, ...rest }: AirPatch): RectangularPatch => ({ ...rest, heightM: gapM, permittivity: 1 });

/** `patchResonance` of a sheet-metal patch over air. */
export const resonanceAirPatch = (patch: AirPatch): Estimate => patchResonance(overAir(patch));

/** `patchLength` of a sheet-metal patch over air. */
export const lengthAirPatch = (freqHz: number, { gapM, ...rest }: Omit<AirPatch, 'lengthM'>): Estimate =>
  patchLength(freqHz, { ...rest, heightM: gapM, permittivity: 1 });

/** Width (m) that radiates well and keeps off the next mode, (c/2f) sqrt(2/(er + 1)) (Balanis, Antenna Theory, eq. 14-6). A starting value. */
export function efficientWidth(freqHz: number, permittivity: number): number {
  requirePositive({ freqHz });
  requirePermittivity({ permittivity });
  return (SPEED_OF_LIGHT / (2 * freqHz)) * Math.sqrt(2 / (permittivity + 1));
}
