import type { Figure } from '@sheetwave/drawings';
import { frequencyAxis } from './frequency-axis.ts';
import type { PlotOptions } from './options.ts';
import { stepUp } from './ticks.ts';
import { type AxisSpan, type PlotCurve, xyChart } from './xy-chart.ts';

/** Gain over frequency, dBi. */
export interface GainPlot {
  /** Each value belongs to the frequency at its place. */
  readonly freqHz: readonly number[];
  readonly gainDbi: readonly number[];
  readonly realisedGainDbi: readonly number[];
  readonly gainAheadDbi: readonly number[];
  /** How far it may be off, dB. */
  readonly errorDb?: number;
  /** The band that is asked for, and the least gain within it. */
  readonly target: { readonly lowHz: number; readonly highHz: number; readonly gainDbi?: number };
}

/** Below the highest gain by more than this it is of no use to anyone, dB. */
const DEPTH_DB = 20;

/** Gain in the main beam with losses, with mismatch as well, and straight ahead. Throws RangeError for lists of different length. */
export function gainChart(plot: GainPlot, options: PlotOptions): Figure {
  const { freqHz, gainDbi, realisedGainDbi, gainAheadDbi, errorDb, target } = plot;
  for (const list of [gainDbi, realisedGainDbi, gainAheadDbi])
    if (list.length !== freqHz.length)
      throw new RangeError(`a gain needs ${freqHz.length} values, one for each frequency, and has ${list.length}.`);
  const x = frequencyAxis([freqHz]);
  const pointsOf = (values: readonly number[]) => values.map((y, i) => ({ x: x.shown(freqHz[i] ?? Number.NaN), y }));
  const curves: readonly PlotCurve[] = [
    { name: 'main beam, with losses', points: pointsOf(gainDbi), look: 'full', ...bandOf(gainDbi, errorDb) },
    { name: 'with mismatch as well', points: pointsOf(realisedGainDbi), look: 'dashed' },
    { name: 'straight ahead, with losses', points: pointsOf(gainAheadDbi), look: 'dotted' },
  ];
  const wanted = target.gainDbi;
  const band = { fromX: x.shown(target.lowHz), toX: x.shown(target.highHz) };
  const chart = {
    x: x.span,
    y: spanOf([gainDbi, realisedGainDbi, gainAheadDbi].flat(), { errorDb: errorDb ?? 0, wanted }),
    curves,
    shades: [
      { kind: 'wanted' as const, ...band, ...(wanted === undefined ? {} : { fromY: wanted }) },
      ...(wanted === undefined ? [] : [{ kind: 'unwanted' as const, ...band, toY: wanted }]),
    ],
    limits: wanted === undefined ? [] : [{ y: wanted, label: `wanted: ${wanted} dBi` }],
  };
  return xyChart(chart, options);
}

const bandOf = (values: readonly number[], errorDb: number | undefined) =>
  errorDb === undefined
    ? {}
    : { band: { lower: values.map((value) => value - errorDb), upper: values.map((value) => value + errorDb) } };

function spanOf(
  values: readonly number[],
  { errorDb, wanted }: { readonly errorDb: number; readonly wanted: number | undefined },
): AxisSpan {
  const finite = values.filter(Number.isFinite);
  const to = stepUp(Math.max(...finite, wanted ?? Number.NEGATIVE_INFINITY) + errorDb + 0.5, 1);
  const from = Math.max(
    to - DEPTH_DB,
    Math.floor(Math.min(...finite, wanted ?? Number.POSITIVE_INFINITY) - errorDb - 0.5),
  );
  return { label: 'gain, dBi', from, to };
}
