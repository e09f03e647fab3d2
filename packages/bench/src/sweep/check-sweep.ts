import type { Finding } from '@sheetwave/design';
import {
  type Complex,
  type FrequencyBand,
  magnitude,
  multiply,
  polar,
  portReflection,
  type Response,
  vswrBands,
} from '@sheetwave/rf';
import { sweepNoise } from './noise.ts';
import { median, turns } from './phase.ts';
import { ghz } from './words.ts';

export interface SweepExpectation {
  readonly band: FrequencyBand;
  /** Of the coax of the antenna. */
  readonly referenceOhm: number;
  readonly port?: number;
  /** Whether a cable has been taken out, so that none should be left. */
  readonly cableRemoved?: boolean;
}

/** What is taken for noise and for the residue of a good calibration. */
const ABOVE_ONE = 1.01;
const LEAST_POINTS_IN_BAND = 11;
const LEAST_POINTS_IN_DIP = 5;
/** One-way delay that is worth a word: 60 mm of cable. */
const DELAY_WORTH_A_WORD_S = 0.3e-9;

/** What is odd about a sweep, or makes it useless for a design's band. Errors: nothing in the band at all. */
export function checkSweep(sweep: Response, expected: SweepExpectation): readonly Finding[] {
  const gamma = portReflection(sweep, expected.port);
  return [
    ...coverage(sweep, expected),
    ...aboveOne(sweep, gamma),
    ...flat(gamma),
    ...reference(sweep, expected),
    ...points(sweep, expected),
    ...delay(sweep, gamma, expected),
    ...noise(gamma),
  ];
}

const finding = (
  severity: Finding['severity'],
  code: string,
  words: Pick<Finding, 'value' | 'allowed' | 'remedy'>,
): Finding => ({
  severity,
  code,
  path: '',
  ...words,
});

function coverage({ freqHz }: Response, { band }: SweepExpectation): readonly Finding[] {
  const [low, high] = [freqHz[0] ?? Number.NaN, freqHz.at(-1) ?? Number.NaN];
  const value = `a sweep of ${ghz(low)} to ${ghz(high)}`;
  const wanted = `${ghz(band.lowHz)} to ${ghz(band.highHz)}`;
  if (high < band.lowHz || low > band.highHz) {
    return [
      finding('error', 'band-not-swept', {
        value,
        allowed: `has nothing in the band of the design, ${wanted}`,
        remedy: 'sweep the band, and half of it more on both sides',
      }),
    ];
  }
  if (low <= band.lowHz && high >= band.highHz) return [];
  return [
    finding('warning', 'band-not-covered', {
      value,
      allowed: `does not cover the band of the design, ${wanted}`,
      remedy: 'sweep the whole band, and half of it more on both sides',
    }),
  ];
}

function aboveOne({ freqHz }: Response, gamma: readonly Complex[]): readonly Finding[] {
  const sizes = gamma.map(magnitude);
  const above = sizes.filter((size) => size > ABOVE_ONE).length;
  if (above === 0) return [];
  const worst = sizes.indexOf(Math.max(...sizes));
  const at = freqHz[worst] ?? Number.NaN;
  return [
    finding('warning', 'reflection-above-one', {
      value: `a reflection of ${(sizes[worst] ?? 0).toFixed(3)} at ${ghz(at)} (${above} of ${sizes.length} points above ${ABOVE_ONE})`,
      allowed: 'is more than an antenna can give back',
      remedy: 'calibrate at the end of the cable with open, short and load, over this very range, and sweep again',
    }),
  ];
}

/** The reflection with the delay taken out. */
function stilled(gamma: readonly Complex[]): readonly Complex[] {
  const turn = median(turns(gamma));
  return gamma.map((value, i) => multiply(value, polar(1, -turn * i)));
}

function flat(gamma: readonly Complex[]): readonly Finding[] {
  const sizes = gamma.map(magnitude);
  const [least, most] = [Math.min(...sizes), Math.max(...sizes)];
  if (most < 0.03) {
    return [
      finding('warning', 'flat-match', {
        value: `a reflection below ${most.toFixed(3)} throughout`,
        allowed: 'is that of a load, not of an antenna',
        remedy: 'connect the antenna',
      }),
    ];
  }
  const still = stilled(gamma);
  const steps = still.slice(1).map(({ re, im }, i) => Math.hypot(re - (still[i]?.re ?? re), im - (still[i]?.im ?? im)));
  const way = steps.reduce((a, b) => a + b, 0);
  if (least < 0.85 || most - least > 0.12 || way / steps.length > 0.05) return [];
  return [
    finding('warning', 'flat-line', {
      value: `a reflection of ${least.toFixed(2)} to ${most.toFixed(2)} throughout`,
      allowed: 'shows no resonance at all',
      remedy: 'see whether the antenna is connected and its feed is neither open nor shorted',
    }),
  ];
}

function reference(sweep: Response, { referenceOhm }: SweepExpectation): readonly Finding[] {
  if (Math.abs(sweep.referenceOhm / referenceOhm - 1) < 1e-3) return [];
  return [
    finding('warning', 'other-reference', {
      value: `a reference of ${sweep.referenceOhm} ohm`,
      allowed: `is not the ${referenceOhm} ohm of the coax of the design`,
      remedy: 'make sure that the instrument was calibrated for what the file says; the sweep is converted',
    }),
  ];
}

function points(sweep: Response, { band, port = 0 }: SweepExpectation): readonly Finding[] {
  const inside = (lowHz: number, highHz: number) => sweep.freqHz.filter((f) => f >= lowHz && f <= highHz).length;
  const count = inside(band.lowHz, band.highHz);
  const [first, last] = [sweep.freqHz[0] ?? Number.NaN, sweep.freqHz.at(-1) ?? Number.NaN];
  const share = (Math.min(last, band.highHz) - Math.max(first, band.lowHz)) / (band.highHz - band.lowHz);
  if (share <= 0) return [];
  if (count < LEAST_POINTS_IN_BAND * share) {
    return [
      finding('warning', 'few-points', {
        value: `${count} ${count === 1 ? 'point' : 'points'} in the band`,
        allowed: 'are too few to see its curve',
        remedy: `sweep with at least ${LEAST_POINTS_IN_BAND} points in the band, better 101`,
      }),
    ];
  }
  const narrow = vswrBands(sweep, 2, port).filter(
    ({ lowHz, highHz, lowSeen, highSeen }) => lowSeen && highSeen && inside(lowHz, highHz) < LEAST_POINTS_IN_DIP,
  );
  return narrow.slice(0, 1).map(({ lowHz, highHz }) =>
    finding('warning', 'few-points', {
      value: `${inside(lowHz, highHz)} points in the dip from ${ghz(lowHz)} to ${ghz(highHz)}`,
      allowed: 'are too few to place it',
      remedy: 'sweep with more points or a narrower range',
    }),
  );
}

function delay(
  sweep: Response,
  gamma: readonly Complex[],
  { cableRemoved = false }: SweepExpectation,
): readonly Finding[] {
  const steps = sweep.freqHz.slice(1).map((f, i) => f - (sweep.freqHz[i] ?? f));
  const all = turns(gamma);
  const delayS = median(all.map((turn, i) => -turn / (4 * Math.PI * (steps[i] ?? Number.NaN))));
  if (cableRemoved && delayS < -DELAY_WORTH_A_WORD_S) {
    return [
      finding('warning', 'too-much-delay', {
        value: 'a reflection that turns forward over frequency',
        allowed: 'is not what an antenna does',
        remedy: 'take less cable out',
      }),
    ];
  }
  if (median(all.map(Math.abs)) > 0.6 * Math.PI) {
    return [
      finding('warning', 'long-cable', {
        value: 'a reflection that turns by more than a third of a circle from point to point',
        allowed: 'leaves the length of its cable uncertain',
        remedy: 'sweep with more points, or calibrate at the end of the cable',
      }),
    ];
  }
  if (cableRemoved || delayS < DELAY_WORTH_A_WORD_S) return [];
  const spreadTurns = 2 * delayS * ((sweep.freqHz.at(-1) ?? 0) - (sweep.freqHz[0] ?? 0));
  if (spreadTurns < 0.5) return [];
  return [
    finding('warning', 'cable-in-sweep', {
      value: `a delay of about ${(delayS * 1e9).toFixed(2)} ns`,
      allowed: 'is still in the sweep: it was calibrated before a cable',
      remedy:
        'calibrate at the antenna, or take the cable out (its delay, or a sweep of its open or shorted end); resistance and reactance mean nothing until then',
    }),
  ];
}

function noise(gamma: readonly Complex[]): readonly Finding[] {
  const sigma = sweepNoise(gamma);
  if (sigma === undefined || sigma < 0.01) return [];
  return [
    finding('warning', 'noisy-sweep', {
      value: `noise of ${sigma.toFixed(3)} in the reflection`,
      allowed: 'blurs dips and small differences',
      remedy: 'narrow the filter of the instrument, average, or raise its power',
    }),
  ];
}
