import type { Figure } from '@sheetwave/drawings';
import { impedanceOf, magnitude, magnitudeOfVswr } from '@sheetwave/rf';
import { type FrequencyAxis, frequencyAxis } from './frequency-axis.ts';
import type { Look } from './look.ts';
import type { PlotOptions } from './options.ts';
import { magnitudeBand, type ReflectionCurve } from './reflection-curve.ts';
import { stepDown, stepUp } from './ticks.ts';
import { type AxisSpan, type PlotCurve, type Shade, xyChart } from './xy-chart.ts';

/** What a diagram over frequency shows. */
export interface FrequencyPlot {
  readonly curves: readonly ReflectionCurve[];
  /** The band that is asked for, and the VSWR within it. */
  readonly target?: { readonly lowHz: number; readonly highHz: number; readonly vswr: number };
  /** Frequencies with a name of their own. */
  readonly marks?: readonly { readonly freqHz: number; readonly label: string }[];
  /** Default all frequencies of all curves. */
  readonly span?: { readonly lowHz: number; readonly highHz: number };
}

/** 20 log10 of a magnitude: -Infinity for a perfect match. */
const decibels = (size: number): number => 20 * Math.log10(size);
/** Infinite from total reflection on. */
const ratioOf = (size: number): number => (size >= 1 ? Number.POSITIVE_INFINITY : (1 + size) / (1 - size));

/** |S11| in dB over frequency: 0 dB at the top is total reflection. */
export function reflectionChart(plot: FrequencyPlot, options: PlotOptions): Figure {
  const { target } = plot;
  const values = plot.curves.flatMap(({ reflection }) => reflection.map(magnitude).map(decibels));
  const limit = target && decibels(magnitudeOfVswr(target.vswr));
  return magnitudeChart(plot, options, {
    y: decibelSpan([...values, ...(limit === undefined ? [] : [limit - 3])]),
    shown: decibels,
    limit:
      limit === undefined
        ? undefined
        : { y: limit, label: `VSWR ${target?.vswr}: ${limit.toFixed(1).replace('-', '\u2212')} dB` },
  });
}

/** VSWR over frequency, 1 at the bottom. */
export function vswrChart(plot: FrequencyPlot, options: PlotOptions): Figure {
  const { target } = plot;
  const inBand = plot.curves.flatMap(({ freqHz, reflection }) =>
    reflection
      .filter((_, i) => target === undefined || isWithin(freqHz[i] ?? 0, target))
      .map((gamma) => ratioOf(magnitude(gamma))),
  );
  return magnitudeChart(plot, options, {
    y: ratioSpan([...inBand, target?.vswr ?? 1]),
    shown: ratioOf,
    limit: target && { y: target.vswr, label: `VSWR ${target.vswr}` },
  });
}

interface MagnitudeScale {
  readonly y: AxisSpan;
  /** From a magnitude to the axis; rising. */
  readonly shown: (size: number) => number;
  readonly limit: { readonly y: number; readonly label: string } | undefined;
}

function magnitudeChart(plot: FrequencyPlot, options: PlotOptions, { y, shown, limit }: MagnitudeScale): Figure {
  const x = frequencyAxis(
    plot.curves.map((curve) => curve.freqHz),
    plot.span,
  );
  const curves = plot.curves.map((curve): PlotCurve => {
    const band = magnitudeBand(curve);
    return {
      ...shared(curve),
      points: curve.freqHz.map((hz, i) => ({ x: x.shown(hz), y: shown(magnitude(curve.reflection[i] ?? NOTHING)) })),
      ...(band && { band: { lower: band.lower.map(shown), upper: band.upper.map(shown) } }),
    };
  });
  return xyChart({ x: x.span, y, curves, ...surround(plot, x, limit) }, options);
}

const NOTHING = { re: Number.NaN, im: Number.NaN };

const shared = ({ name, look }: ReflectionCurve): { readonly name: string; readonly look?: Look } => ({
  name,
  ...(look && { look }),
});

function surround(plot: FrequencyPlot, x: FrequencyAxis, limit: MagnitudeScale['limit']) {
  const { target, marks = [] } = plot;
  return {
    shades: target === undefined ? [] : shadesOf(x, target, limit?.y),
    limits: limit === undefined ? [] : [limit],
    marks: marks.map(({ freqHz, label }) => ({ x: x.shown(freqHz), label })),
  };
}

function shadesOf(
  { shown }: FrequencyAxis,
  target: NonNullable<FrequencyPlot['target']>,
  limit: number | undefined,
): readonly Shade[] {
  const band = { fromX: shown(target.lowHz), toX: shown(target.highHz) };
  if (limit === undefined) return [{ kind: 'wanted', ...band }];
  return [
    { kind: 'wanted', ...band, toY: limit },
    { kind: 'unwanted', ...band, fromY: limit },
  ];
}

/** Down to the lowest value, between 20 and 40 dB; up to 5 dB where a sweep reflects more than it got. */
function decibelSpan(values: readonly number[]): AxisSpan {
  const finite = values.filter(Number.isFinite);
  const lowest = Math.min(...finite, values.includes(Number.NEGATIVE_INFINITY) ? -40 : -20);
  const highest = Math.max(...finite, 0);
  return {
    label: '|S11|, dB',
    from: Math.max(-40, stepDown(lowest, 5)),
    to: highest > 0.05 ? Math.min(5, stepUp(highest, 1)) : 0,
  };
}

/** Half as high again as what is in the band, between 3 and 10. */
function ratioSpan(values: readonly number[]): AxisSpan {
  const highest = Math.max(...values.filter((value) => !Number.isNaN(value)), 1);
  return { label: 'VSWR', from: 1, to: Math.min(10, Math.max(3, Math.ceil(1 + (highest - 1) * 1.5))) };
}

const isWithin = (hz: number, { lowHz, highHz }: { readonly lowHz: number; readonly highHz: number }): boolean =>
  hz >= lowHz && hz <= highHz;

/** Eight times the reference impedance: beyond it the values say no more than "far off". */
const LARGEST_RATIO = 8;

/** Resistance and reactance over frequency, ohm. */
export function impedanceChart(plot: FrequencyPlot, options: PlotOptions): Figure {
  const x = frequencyAxis(
    plot.curves.map((curve) => curve.freqHz),
    plot.span,
  );
  const most = LARGEST_RATIO * Math.max(...plot.curves.map(({ referenceOhm }) => referenceOhm));
  const curves = plot.curves.flatMap((curve, index) => impedanceCurves(curve, x, index));
  const values = curves.flatMap(({ points }) => points.map(({ y }) => y)).filter(Number.isFinite);
  const [low, high] = [Math.min(0, ...values), Math.max(0, ...values)].map((v) => Math.max(-most, Math.min(most, v)));
  const step = (high ?? 0) - (low ?? 0) > 200 ? 50 : 10;
  const y = { label: 'ohm', from: stepDown(low ?? 0, step), to: Math.max(stepUp(high ?? 0, step), step) };
  const references = [...new Set(plot.curves.map(({ referenceOhm }) => referenceOhm))];
  const chart = {
    x: x.span,
    y,
    curves,
    ...surround(plot, x, undefined),
    limits: references.map((ohm) => ({ y: ohm, label: `${ohm} ohm` })),
  };
  return xyChart(chart, options);
}

const RESISTANCE: readonly Look[] = ['full', 'ringed', 'squared'];
const REACTANCE: readonly Look[] = ['dashed', 'dotted', 'broken'];

function impedanceCurves(curve: ReflectionCurve, x: FrequencyAxis, index: number): readonly PlotCurve[] {
  const z = curve.reflection.map((gamma) => impedanceOf(gamma, curve.referenceOhm));
  const points = (part: 're' | 'im') => curve.freqHz.map((hz, i) => ({ x: x.shown(hz), y: (z[i] ?? NOTHING)[part] }));
  const [full = 'full', dashed = 'dashed'] = [RESISTANCE[index % 3], REACTANCE[index % 3]];
  return [
    { name: `${curve.name}: resistance`, points: points('re'), look: full },
    { name: `${curve.name}: reactance`, points: points('im'), look: dashed },
  ];
}
