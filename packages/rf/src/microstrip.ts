import { SPEED_OF_LIGHT } from './constants.ts';
import { type Estimate, estimate, outside, relativeError } from './estimate.ts';
import { dielectricAttenuation, type LineConstants } from './line.ts';
import { requireNotNegative, requirePermittivity, requirePositive } from './require.ts';
import { findCrossing } from './solve.ts';
import { dispersedPermittivity, impedanceDispersion } from './strip-dispersion.ts';
import { type StripSection, staticStrip } from './strip-field.ts';
import { stripConductorAttenuation } from './strip-loss.ts';

function checkSection({ widthM, heightM, thicknessM, permittivity }: StripSection): void {
  requirePositive({ widthM, heightM });
  requireNotNegative({ thicknessM });
  requirePermittivity({ permittivity });
}

/** Impedance and effective permittivity without loss: Hammerstad & Jensen (1980) and Kirschning & Jansen (1982, 1983). `freqHz` of 0 gives the low-frequency values. */
export function stripLine(section: StripSection, freqHz: number): Omit<LineConstants, 'attenuation'> {
  checkSection(section);
  requireNotNegative({ freqHz });
  const low = staticStrip(section);
  if (freqHz === 0) return low;
  const input = {
    u: section.widthM / section.heightM,
    permittivity: section.permittivity,
    staticPermittivity: low.effectivePermittivity,
    gigahertzMillimetres: (freqHz / 1e9) * section.heightM * 1000,
  };
  return {
    z0Ohm: low.z0Ohm * impedanceDispersion(input),
    effectivePermittivity: dispersedPermittivity(input),
  };
}

const LEAVES_OUT = [
  'Bends, junctions, solder mask and a cover over the line.',
  'The spread of the permittivity and of the etched width.',
];

const impedanceError = (permittivity: number) =>
  permittivity === 1
    ? relativeError(
        0.005,
        'Within 0.005 % of the exact conformal map without thickness; the thickness term from memory.',
      )
    : relativeError(
        0.01,
        'Claims of the authors (0.2 % and 0.6 %); within 0.1 % of an independent solution at low frequency.',
      );

const limits = ({ widthM, heightM, thicknessM, permittivity }: StripSection, freqHz: number) => [
  outside('The width over the height', widthM / heightM, 0.1, 100),
  outside('The thickness over the height', thicknessM / heightM, 0, 0.5),
  outside('The permittivity', permittivity, 1, 20),
  outside('The height in wavelengths', (heightM * freqHz) / SPEED_OF_LIGHT, 0, 0.13),
];

/** Impedance (ohm) of a strip over a plane at a frequency; permittivity 1 for a strip in air. */
export function stripImpedance(section: StripSection, freqHz: number): Estimate {
  return estimate({
    value: stripLine(section, freqHz).z0Ohm,
    unit: 'ohm',
    error: impedanceError(section.permittivity),
    leavesOut: LEAVES_OUT,
    limits: limits(section, freqHz),
  });
}

/** Effective permittivity of the same strip. */
export function stripEffectivePermittivity(section: StripSection, freqHz: number): Estimate {
  return { ...stripImpedance(section, freqHz), value: stripLine(section, freqHz).effectivePermittivity, unit: 'ratio' };
}

/** What is wanted of a strip. */
export interface StripWanted extends Omit<StripSection, 'widthM'> {
  readonly z0Ohm: number;
  /** 0 for the low-frequency impedance. */
  readonly freqHz: number;
}

/** Width (m) for an impedance: halving between 0.01 and 200 heights. Throws RangeError for an impedance out of reach there. */
export function stripWidth({ z0Ohm, freqHz, ...rest }: StripWanted): Estimate {
  requirePositive({ z0Ohm, heightM: rest.heightM });
  const excess = (widthM: number) => stripLine({ ...rest, widthM }, freqHz).z0Ohm - z0Ohm;
  const low = rest.heightM / 100;
  const high = rest.heightM * 200;
  if (excess(low) < 0 || excess(high) > 0) {
    throw new RangeError(
      `z0Ohm must be from ${(excess(high) + z0Ohm).toFixed(2)} to ${(excess(low) + z0Ohm).toFixed(1)} for this height, not ${z0Ohm}.`,
    );
  }
  const widthM = findCrossing(excess, { low, high });
  const stated = impedanceError(rest.permittivity);
  return estimate({
    value: widthM,
    unit: 'm',
    // The impedance falls more slowly than the width grows: at most by half as much for narrow strips.
    error: relativeError(2 * stated.size, stated.origin),
    leavesOut: LEAVES_OUT,
    limits: limits({ ...rest, widthM }, freqHz),
  });
}

/** What a strip loses in. */
export interface StripLoss {
  readonly lossTangent: number;
  /** Ohm per square, with roughness. */
  readonly surfaceOhm: number;
}

/** All three constants of a strip with thickness: metal loss by Wheeler's rule, dielectric loss by its share of the field. */
export function lossyStripLine(section: StripSection, freqHz: number, loss: StripLoss): LineConstants {
  requirePositive({ freqHz });
  const line = stripLine(section, freqHz);
  const metal = stripConductorAttenuation(section, { z0Ohm: line.z0Ohm, surfaceOhm: loss.surfaceOhm });
  const dielectric = dielectricAttenuation(freqHz, {
    permittivity: section.permittivity,
    effectivePermittivity: line.effectivePermittivity,
    lossTangent: loss.lossTangent,
  });
  return { ...line, attenuation: metal + dielectric };
}

/** A bare metal strip over a plane with air between. m. */
export type AirStrip = Omit<StripSection, 'permittivity'>;

/** `stripImpedance` in air, where frequency plays no part. */
export const airStripLineImpedance = (strip: AirStrip): Estimate => stripImpedance({ ...strip, permittivity: 1 }, 0);

/** `stripWidth` in air. */
export const airStripWidth = (wanted: Omit<StripWanted, 'permittivity' | 'freqHz'>): Estimate =>
  stripWidth({ ...wanted, permittivity: 1, freqHz: 0 });
