/**
 * The quasi-static strip over a plane: E. Hammerstad & O. Jensen, "Accurate models for microstrip computer-aided design",
 * IEEE MTT-S Digest (1980) 407-409. Claimed 0.03 % for the impedance in air and 0.2 % for the permittivity,
 * widths 0.01 to 100 heights, permittivities up to 128. Building blocks; arguments are checked by the callers.
 *
 * A form with 12/u in the bracket of the effective permittivity is also in print; 12 belongs to the simpler handbook
 * formula (`effectivePermittivitySimple`), 10 to this one.
 */
import { FREE_SPACE_IMPEDANCE } from './constants.ts';

/** A strip of width `widthM` and thickness `thicknessM` (0 allowed), its underside `heightM` over the plane. */
export interface StripSection {
  readonly widthM: number;
  readonly heightM: number;
  readonly thicknessM: number;
  /** Relative permittivity of what fills the height; air above. */
  readonly permittivity: number;
}

/** Impedance in air, ohm, of a strip without thickness, `u` = width over height. */
export function airStripImpedance(u: number): number {
  const f = 6 + (2 * Math.PI - 6) * Math.exp(-((30.666 / u) ** 0.7528));
  return (FREE_SPACE_IMPEDANCE / (2 * Math.PI)) * Math.log(f / u + Math.sqrt(1 + (2 / u) ** 2));
}

/** Effective relative permittivity of a strip without thickness. */
export function effectivePermittivity(u: number, er: number): number {
  const a = 1 + Math.log((u ** 4 + (u / 52) ** 2) / (u ** 4 + 0.432)) / 49 + Math.log(1 + (u / 18.1) ** 3) / 18.7;
  const b = 0.564 * ((er - 0.9) / (er + 3)) ** 0.053;
  return (er + 1) / 2 + ((er - 1) / 2) * (1 + 10 / u) ** (-a * b);
}

/** The handbook form, about 2 %, for widths above the height (Balanis, Antenna Theory, eq. 14-1). */
export const effectivePermittivitySimple = (u: number, er: number): number =>
  (er + 1) / 2 + (er - 1) / 2 / Math.sqrt(1 + 12 / u);

/** By how many heights thickness widens a strip: in air, and over the dielectric. */
export function thicknessWidening(section: StripSection): { readonly air: number; readonly dielectric: number } {
  const { widthM, heightM, thicknessM, permittivity } = section;
  if (thicknessM === 0) return { air: 0, dielectric: 0 };
  const t = thicknessM / heightM;
  const coth = 1 / Math.tanh(Math.sqrt((6.517 * widthM) / heightM));
  const air = (t / Math.PI) * Math.log(1 + (4 * Math.E) / (t * coth * coth));
  return { air, dielectric: (air / 2) * (1 + 1 / Math.cosh(Math.sqrt(permittivity - 1))) };
}

/** Impedance (ohm) and effective permittivity of a strip with thickness, at low frequency. */
export function staticStrip(section: StripSection): { readonly z0Ohm: number; readonly effectivePermittivity: number } {
  const u = section.widthM / section.heightM;
  const widening = thicknessWidening(section);
  const inAir = airStripImpedance(u + widening.air);
  const inDielectric = airStripImpedance(u + widening.dielectric);
  const ee = effectivePermittivity(u + widening.dielectric, section.permittivity);
  return { z0Ohm: inDielectric / Math.sqrt(ee), effectivePermittivity: ee * (inAir / inDielectric) ** 2 };
}
