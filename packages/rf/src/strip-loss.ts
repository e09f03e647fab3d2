import { FREE_SPACE_IMPEDANCE } from './constants.ts';
import { requireNotNegative, requirePositive } from './require.ts';
import { slopeAt } from './solve.ts';
import { airStripImpedance, type StripSection, thicknessWidening } from './strip-field.ts';

/** Impedance (ohm) of the strip, with its thickness, with the dielectric taken away. */
function impedanceInAir(section: StripSection): number {
  return airStripImpedance(section.widthM / section.heightM + thicknessWidening(section).air);
}

/** The section after every metal face has drawn back by `depth`. */
const receded = (section: StripSection, depth: number): StripSection => ({
  ...section,
  widthM: section.widthM - 2 * depth,
  thicknessM: section.thicknessM - 2 * depth,
  heightM: section.heightM + 2 * depth,
});

/**
 * Attenuation (Np/m) by the metal of a strip and its plane: Wheeler's rule of incremental inductance (Proc. IRE 30 (1942)
 * 412-424) on the air impedance of Hammerstad & Jensen, R = (Rs/eta0) dZ/dn, alpha = R/2 Z0. It counts the crowding
 * at the edges and its spread over the plane. Needs a thickness; good to about 15 % while that is above about four skin
 * depths (common practice). The handbook's Rs/(Z0 W), for a current spread evenly under a wide strip, is the limit of it and
 * about 1.7 times as high for 50 ohm on FR-4; rough copper makes up for much of that: see `roughnessFactor`.
 * `surfaceOhm` per square with roughness.
 */
export function stripConductorAttenuation(
  section: StripSection,
  line: { readonly z0Ohm: number; readonly surfaceOhm: number },
): number {
  const { widthM, heightM, thicknessM } = section;
  requirePositive({ widthM, heightM, thicknessM, z0Ohm: line.z0Ohm });
  requireNotNegative({ surfaceOhm: line.surfaceOhm });
  const slope = slopeAt((depth) => impedanceInAir(receded(section, depth)), 0, thicknessM * 1e-4);
  return ((line.surfaceOhm / FREE_SPACE_IMPEDANCE) * slope) / (2 * line.z0Ohm);
}
