import type { Complex } from '@sheetwave/field';
import type { PublishedRow } from './published-row.ts';

/** What may be meant by the resonance of a patch. */
export const DEFINITIONS = ['pole', 'resistance_peak', 'reactance_zero', 'least_reflection'] as const;
export type Definition = (typeof DEFINITIONS)[number];

/** Hz by each definition; undefined where the patch with its probe has no such frequency. */
export type Resonances = Readonly<Record<Definition, number | undefined>>;

/** Input impedance over frequency, rising. */
export interface ImpedanceCurve {
  readonly freqHz: readonly number[];
  readonly z: readonly Complex[];
}

/** Reference of the reflection, ohm. */
const REFERENCE = 50;

/** |S11| in 50 ohm. */
const reflection = ({ re, im }: Complex): number => Math.hypot(re - REFERENCE, im) / Math.hypot(re + REFERENCE, im);

/** How far from the pole the other three are looked for, relative. */
const NEAR = 0.25;

/** The frequency of least reflection near the pole and the reflection there; undefined without a dip. */
export interface Dip {
  readonly freqHz: number;
  readonly reflection: number;
}

export interface Read {
  readonly resonances: Resonances;
  readonly dip: Dip | undefined;
}

/**
 * The resonance by all definitions: the pole as given; the peak of the resistance nearest to it; the falling zero of the
 * reactance nearest to that peak (a parallel resonance is inductive below and capacitive above); the deepest dip of the
 * reflection near the pole.
 */
export function readCurve(curve: ImpedanceCurve, poleHz: number): Read {
  const near = (freq: number) => Math.abs(freq / poleHz - 1) < NEAR;
  const nearest = (list: readonly number[], to: number) =>
    list.reduce<number | undefined>(
      (a, b) => (a !== undefined && Math.abs(a - to) <= Math.abs(b - to) ? a : b),
      undefined,
    );
  const peaks = turns(curve, ({ re }) => re).filter(({ freqHz }) => near(freqHz));
  const peak = nearest(
    peaks.map(({ freqHz }) => freqHz),
    poleHz,
  );
  const zeros = fallingZeros(curve).filter(near);
  const dips = turns(curve, (z) => -reflection(z)).filter(({ freqHz }) => near(freqHz));
  const dip = dips.reduce<Turn | undefined>((a, b) => (a && a.value >= b.value ? a : b), undefined);
  return {
    resonances: {
      pole: poleHz,
      resistance_peak: peak,
      reactance_zero: nearest(zeros, peak ?? poleHz),
      least_reflection: dip?.freqHz,
    },
    dip: dip && { freqHz: dip.freqHz, reflection: -dip.value },
  };
}

interface Turn {
  readonly freqHz: number;
  readonly value: number;
}

/** Local maxima, each refined by the parabola through three samples. */
function turns({ freqHz, z }: ImpedanceCurve, of: (z: Complex) => number): Turn[] {
  const values = z.map(of);
  return values.flatMap((value, n) => {
    const [before, after] = [values[n - 1], values[n + 1]];
    if (before === undefined || after === undefined || !(value > before && value >= after)) return [];
    const [a, b, c] = [freqHz[n - 1] as number, freqHz[n] as number, freqHz[n + 1] as number];
    const [left, right] = [(value - before) / (b - a), (after - value) / (c - b)];
    const bend = (right - left) / (c - a);
    const top = bend === 0 ? b : (a + b) / 2 - left / (2 * bend);
    return [{ freqHz: Math.min(c, Math.max(a, top)), value }];
  });
}

/** Where the reactance falls through zero. */
function fallingZeros({ freqHz, z }: ImpedanceCurve): number[] {
  return z.flatMap(({ im }, n) => {
    const before = z[n - 1]?.im;
    if (before === undefined || !(before > 0 && im <= 0)) return [];
    const [a, b] = [freqHz[n - 1] as number, freqHz[n] as number];
    return [a + ((b - a) * before) / (before - im)];
  });
}

/** |S11| at a voltage standing wave ratio of 2. */
const MATCHED = 1 / 3;

/**
 * Authors whose rows are compared with the pole, by what they measured (all from memory).
 *
 * Chang, Long & Richards (1986) measured the impedance of wide patches on thick layers, and Itoh & Mittra (1973) resonators
 * that were coupled as lightly as possible: neither is the dip of a matched probe.
 */
const UNMATCHED_SOURCES: readonly RegExp[] = [/\bChang\b.*\bRichards\b/i, /\bItoh\b.*\bMittra\b/i];

/**
 * The definition that a measured number is compared with, the same for every row of a source. The resonance of a probe-fed
 * patch is read from the dip of its reflection, so the least reflection of a probe in its best place. The inductance of the
 * probe puts that a little above the resonance of the patch by itself. The pole serves where the measurement had no matched
 * probe: for the sources above, for modes other than the lowest and for triangles, and where a plain probe does not match the
 * patch to a standing wave ratio of 2: there its inductance outweighs the resistance, and the dip is far from the resonance.
 */
export function chooseDefinition(row: PublishedRow, { dip }: Read): Definition {
  const isLowest = row.mode[0] === 1 && row.outline.kind !== 'triangle';
  const isMatched = dip !== undefined && dip.reflection < MATCHED;
  const hasProbe = UNMATCHED_SOURCES.every((pattern) => !pattern.test(row.source));
  return isLowest && isMatched && hasProbe ? 'least_reflection' : 'pole';
}
