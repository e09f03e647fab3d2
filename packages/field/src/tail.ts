import { add, type Complex, complex, divide, expComplex, magnitude, multiply, scale, subtract } from './complex.ts';
import { fitAmplitudes, fitPoles, type Pole, type PoleFit, poleFrequency, poleQuality } from './resonances.ts';
import type { Traces } from './run.ts';
import type { Band } from './scene.ts';

/** A resonance seen in the free ringing after the pulse: the complex pole of a mode. */
export interface Resonance {
  readonly freqHz: number;
  readonly q: number;
  /** Relative to the strongest. */
  readonly strength: number;
}

const SAMPLES = 260;
const PER_PERIOD = 9;

/** The ringing of one port after the generator fell silent, thinned to nine samples in a period of the top of the band. */
function ringing(
  series: Float64Array,
  traces: Traces,
  band: Band,
): { signal: Float64Array; interval: number; start: number } {
  const stride = strideOf(traces.dt, band);
  const first = Math.ceil(traces.silentAfter / traces.dt);
  const start = Math.max(first, series.length - SAMPLES * stride);
  const count = Math.max(0, Math.floor((series.length - start) / stride));
  const signal = Float64Array.from({ length: count }, (_, n) => series[start + n * stride] as number);
  return { signal, interval: stride * traces.dt, start };
}

/** Fewer samples than this say nothing about poles. */
const FEWEST = 40;
/** As many tell the poles of strongly damped modes apart. */
const ENOUGH = 64;

/** Steps between two samples of the ringing. */
const strideOf = (dt: number, band: Band): number => Math.max(1, Math.floor(1 / (PER_PERIOD * band.high * dt)));

/** Steps that a run should go on for after the generator fell silent, however fast the fields die away. */
export const ringingSteps = (dt: number, band: Band): number => ENOUGH * strideOf(dt, band);

/** The first ringing after the pulse holds all modes; later only the slowest are left. */
export function resonancesOf(traces: Traces, port: number, band: Band): { resonances: Resonance[]; residual: number } {
  const stride = strideOf(traces.dt, band);
  const start = Math.ceil(traces.silentAfter / traces.dt);
  const series = traces.volts[port] as Float64Array;
  const count = Math.min(SAMPLES, Math.floor((series.length - start) / stride));
  if (count < FEWEST) return { resonances: [], residual: 1 };
  const signal = Float64Array.from({ length: count }, (_, n) => series[start + n * stride] as number);
  const fit = fitPoles(signal, { interval: stride * traces.dt });
  const inBand = fit.poles.filter((pole) => pole.s.im > 0 && pole.s.re < 0 && isInBand(pole, band));
  const strongest = Math.max(...inBand.map(({ amplitude }) => magnitude(amplitude)));
  return {
    residual: fit.residual,
    resonances: inBand
      .map((pole) => ({
        freqHz: poleFrequency(pole),
        q: poleQuality(pole),
        strength: magnitude(pole.amplitude) / strongest,
      }))
      .filter(({ strength }) => strength > 1e-3)
      .sort((a, b) => a.freqHz - b.freqHz),
  };
}

const isInBand = (pole: Pole, band: Band) =>
  poleFrequency(pole) > 0.5 * band.low && poleFrequency(pole) < 1.5 * band.high;

/** What a trace would go on to do: poles that ring on from its last sample. */
export interface Tail {
  readonly fit: PoleFit;
  /** s: time 0 of the fit, and the end of the recorded trace. */
  readonly start: number;
  readonly end: number;
}

/** Largest part of the fitted ringing that the poles may leave. */
const ACCEPTED_RESIDUAL = 2e-3;

/** The continuation of all traces, or undefined when their poles do not describe them well enough. */
export function acceptedTails(traces: Traces, driven: number, band: Band): { volts: Tail[]; amps: Tail[] } | undefined {
  const { signal, interval } = ringing(traces.volts[driven] as Float64Array, traces, band);
  if (signal.length < 2 * FEWEST) return undefined;
  // A pole that grows is noise: the residual tells whether the others do without it.
  const exponents = fitPoles(signal, { interval, most: 24 })
    .poles.map(({ s }) => s)
    .filter((s) => s.re < 0);
  const level = rms(signal);
  const tailOf = (series: Float64Array, shift: number): Tail | undefined => {
    const own = ringing(series, traces, band);
    const fit = fitAmplitudes(own.signal, exponents, own.interval);
    // A port far away may hear next to nothing: its residual counts against what matters.
    if (!(fit.residual < ACCEPTED_RESIDUAL) && !(fit.residual * rms(own.signal) < 1e-3 * level)) return undefined;
    return { fit, start: (own.start + shift) * traces.dt, end: (series.length + shift) * traces.dt };
  };
  const volts = traces.volts.map((series) => tailOf(series, 1));
  const amps = traces.amps.map((series) => tailOf(series, 1.5));
  const complete = (tails: (Tail | undefined)[]): tails is Tail[] => tails.every((tail) => tail !== undefined);
  return complete(volts) && complete(amps) ? { volts, amps } : undefined;
}

const rms = (signal: Float64Array) => Math.sqrt(signal.reduce((sum, value) => sum + value * value, 0) / signal.length);

/** The exponent that is strongest at the end of a trace: what rings on last. */
export function lastingExponent({ fit, start, end }: Tail): Complex | undefined {
  const strength = ({ s, amplitude }: Pole) => magnitude(amplitude) * Math.exp(s.re * (end - start));
  const ringing = fit.poles.filter(({ s }) => s.im > 0);
  return ringing.reduce<Pole | undefined>((a, b) => (a && strength(a) >= strength(b) ? a : b), undefined)?.s;
}

/** Fourier sum, with samples dt apart, of the poles from the end of the trace on: a geometric series. */
export function tailTransform({ fit, start, end }: Tail, freqHz: number, dt: number): Complex {
  const turn = complex(0, -2 * Math.PI * freqHz);
  return fit.poles.reduce((sum, { s, amplitude }) => {
    const first = multiply(amplitude, expComplex(add(scale(s, end - start), scale(turn, end))));
    const ratio = expComplex(scale(add(s, turn), dt));
    return add(sum, scale(divide(first, subtract(complex(1), ratio)), dt));
  }, complex(0));
}
