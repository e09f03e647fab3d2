import { type Complex, magnitude, portReflection, type Response } from '@sheetwave/rf';
import type { Cable } from './cable.ts';
import { quantile, turns, unwrapped } from './phase.ts';

/** A cable found in a sweep, and how far it may be trusted. */
export interface FittedCable {
  readonly cable: Cable;
  /** How far the delay may be off, s. */
  readonly delayErrorS: number;
  /** How far the loss may be off at its frequency, dB one way; undefined when this kind of sweep says nothing of loss. */
  readonly lossErrorDb: number | undefined;
  /** A sentence: what it rests on and what it cannot know. */
  readonly basis: string;
  /** Delays that differ by this look the same in the sweep, s. */
  readonly ambiguousByS: number;
}

export type CableFit = { readonly ok: true; readonly fit: FittedCable } | { readonly ok: false; readonly why: string };

/** Delays that differ by this turn each step by a whole circle: 1/(2 step). */
function ambiguity(freqHz: readonly number[]): number {
  const steps = freqHz.slice(1).map((f, i) => f - (freqHz[i] ?? f));
  return 1 / (2 * Math.min(...steps));
}

/** Least points that a straight line is laid through. */
const LEAST_POINTS = 10;

/**
 * The cable from a sweep of its own end, open or shorted: the phase is -2 w t (for a short half a turn more), a straight line through its
 * samples; the magnitude in dB falls as twice the loss, with the square root of frequency. A least-squares fit of both; the errors are
 * the usual ones of such a fit, doubled (95 %). The fringe field of an open end looks like more delay: 1 to 2 ps for common connectors
 * (common practice, no source), which is added to the error of the delay.
 */
export function fitCableEnd(sweep: Response, end: 'open' | 'short', port = 0): CableFit {
  const gamma = portReflection(sweep, port);
  if (gamma.length < LEAST_POINTS)
    return { ok: false, why: `it has ${gamma.length} points and ${LEAST_POINTS} are needed` };
  const sizes = gamma.map(magnitude);
  if (Math.min(...sizes) < 0.3 * Math.max(...sizes)) {
    return { ok: false, why: `its reflection has a dip, so that it is not a sweep of a cable whose end is ${end}` };
  }
  const { freqHz } = sweep;
  const phase = slopeOf(
    freqHz.map((f) => 2 * Math.PI * f),
    unwrapped(gamma),
  );
  const start = phase.intercept - (end === 'short' ? Math.PI : 0);
  const turnsOff = Math.abs(start / (2 * Math.PI) - Math.round(start / (2 * Math.PI)));
  const middleHz = Math.sqrt((freqHz[0] ?? 1) * (freqHz.at(-1) ?? 1));
  const loss = lossFit(freqHz, gamma, middleHz);
  const fringeS = end === 'open' ? 2e-12 : 0;
  const doubt =
    turnsOff > 0.2 ? ` Its phase at 0 Hz is not that of an end that is ${end}: check which one it was.` : '';
  return {
    ok: true,
    fit: {
      cable: { delayS: -phase.slope / 2, lossDb: Math.max(0, loss.lossDb), lossAtHz: middleHz },
      delayErrorS: phase.error + fringeS,
      lossErrorDb: loss.errorDb,
      ambiguousByS: ambiguity(freqHz),
      basis: `Straight phase of a sweep with the end of the cable ${end === 'open' ? 'open' : 'shorted'}, its loss growing with the square root of frequency.${doubt}`,
    },
  };
}

interface Line {
  readonly slope: number;
  readonly intercept: number;
  /** Of the slope, 95 %. */
  readonly error: number;
}

/** Least-squares line (any textbook of statistics): slope, intercept, twice the standard error of the slope. */
function slopeOf(x: readonly number[], y: readonly number[]): Line {
  const count = x.length;
  const meanX = x.reduce((a, b) => a + b, 0) / count;
  const meanY = y.reduce((a, b) => a + b, 0) / count;
  let xx = 0;
  let xy = 0;
  x.forEach((value, i) => {
    xx += (value - meanX) ** 2;
    xy += (value - meanX) * ((y[i] ?? meanY) - meanY);
  });
  const slope = xy / xx;
  const intercept = meanY - slope * meanX;
  const rest = x.reduce((sum, value, i) => sum + ((y[i] ?? 0) - intercept - slope * value) ** 2, 0);
  return { slope, intercept, error: 2 * Math.sqrt(rest / Math.max(1, count - 2) / xx) };
}

/** dB of the reflection = -2 loss sqrt(f/f0), least squares through nought. */
function lossFit(
  freqHz: readonly number[],
  gamma: readonly Complex[],
  lossAtHz: number,
): { lossDb: number; errorDb: number } {
  const root = freqHz.map((f) => 2 * Math.sqrt(f / lossAtHz));
  const decibels = gamma.map((value) => -20 * Math.log10(magnitude(value)));
  const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0);
  const square = sum(root.map((value) => value * value));
  const lossDb = sum(root.map((value, i) => value * (decibels[i] ?? 0))) / square;
  const rest = sum(decibels.map((value, i) => (value - lossDb * (root[i] ?? 0)) ** 2));
  return { lossDb, errorDb: 2 * Math.sqrt(rest / Math.max(1, freqHz.length - 1) / square) };
}

/** Reflections above this are taken as far from a resonance. */
const FAR_OFF = 0.7;

/**
 * The delay from the sweep of the antenna itself: away from its resonances the reflection of an antenna turns little, so that what it turns
 * there is mostly the cable. The median of the turn over those points; what the antenna turns by itself makes the delay too long, so the error is
 * half the spread of the middle half, and a quarter of a turn over the width of the points used: what one matched resonator turns outside its dip. Loss cannot be told from the antenna's own.
 */
export function fitDelay(sweep: Response, port = 0): CableFit {
  const gamma = portReflection(sweep, port);
  const { freqHz } = sweep;
  const delays: number[] = [];
  const used: number[] = [];
  turns(gamma).forEach((turn, i) => {
    const [fa, fb] = [freqHz[i] ?? Number.NaN, freqHz[i + 1] ?? Number.NaN];
    const least = Math.min(magnitude(gamma[i] ?? { re: 0, im: 0 }), magnitude(gamma[i + 1] ?? { re: 0, im: 0 }));
    if (least < FAR_OFF) return;
    delays.push(-turn / (4 * Math.PI * (fb - fa)));
    used.push(fb - fa);
  });
  if (delays.length < LEAST_POINTS) {
    return {
      ok: false,
      why: `only ${delays.length} steps of it lie away from a resonance (reflection above ${FAR_OFF}) and ${LEAST_POINTS} are needed: sweep wider, or sweep the end of the cable open or shorted`,
    };
  }
  const delayS = quantile(delays, 0.5);
  const widthHz = used.reduce((a, b) => a + b, 0);
  const spread = (quantile(delays, 0.75) - quantile(delays, 0.25)) / 2;
  return {
    ok: true,
    fit: {
      cable: { delayS, lossDb: 0, lossAtHz: freqHz[0] ?? 1e9 },
      delayErrorS: spread + 1 / (8 * widthHz),
      lossErrorDb: undefined,
      ambiguousByS: ambiguity(freqHz),
      basis: `The turn of the reflection away from resonance, over ${(widthHz / 1e6).toFixed(0)} MHz: what the antenna itself turns there counts as cable.`,
    },
  };
}
