import { add, type Complex, conjugate, divide, multiply, scale } from './complex.ts';
import type { Traces } from './run.ts';
import { transform } from './spectrum.ts';
import { type Tail, tailTransform } from './tail.ts';

/** Spectra of one run at one frequency, V s and A s. */
export interface PortSpectra {
  readonly volts: readonly Complex[];
  readonly amps: readonly Complex[];
}

/** Fourier integrals of all port voltages and currents, continued by their tails where there are any. */
export function portSpectra(
  traces: Traces,
  freqHz: number,
  tails?: { readonly volts: readonly Tail[]; readonly amps: readonly Tail[] },
): PortSpectra {
  const { dt } = traces;
  const whole = (series: Float64Array, shift: number, tail: Tail | undefined) => {
    const recorded = transform(series, freqHz, { interval: dt, shift });
    return tail ? add(recorded, tailTransform(tail, freqHz, dt)) : recorded;
  };
  return {
    volts: traces.volts.map((series, p) => whole(series, 1, tails?.volts[p])),
    amps: traces.amps.map((series, p) => whole(series, 1.5, tails?.amps[p])),
  };
}

/**
 * One column of the S matrix, from the run that drove this port: waves a = (V + R I)/(2 sqrt R), b = (V - R I)/(2 sqrt R)
 * (K. Kurokawa, IEEE Trans. MTT-13 (1965) 194). The other ports end in their own resistance, so that no wave enters.
 */
export function scatteringColumn(
  { volts, amps }: PortSpectra,
  driven: number,
  resistance: readonly number[],
): Complex[] {
  const wave = (p: number, sign: 1 | -1) =>
    scale(
      add(volts[p] as Complex, scale(amps[p] as Complex, sign * (resistance[p] as number))),
      0.5 / Math.sqrt(resistance[p] as number),
    );
  const incident = wave(driven, 1);
  return volts.map((_, p) => divide(wave(p, -1), incident));
}

/** V / I of a port, ohm. */
export const portImpedance = ({ volts, amps }: PortSpectra, port: number): Complex =>
  divide(volts[port] as Complex, amps[port] as Complex);

/** W (for spectra in V s): what the ports together give to the structure. */
export const acceptedPower = ({ volts, amps }: PortSpectra): number =>
  volts.reduce((sum, v, p) => sum + multiply(v, conjugate(amps[p] as Complex)).re / 2, 0);

/** W that the generator of the driven port could give at most: |a|^2 / 2. */
export function availablePower({ volts, amps }: PortSpectra, driven: number, resistance: number): number {
  const sum = add(volts[driven] as Complex, scale(amps[driven] as Complex, resistance));
  return (sum.re ** 2 + sum.im ** 2) / (8 * resistance);
}
