import { type Complex, magnitude, type Response, smoothCurve } from '@sheetwave/rf';
import type { FarFieldFigures, GainCurve } from './prediction.ts';

/**
 * The gain of every port over as much of the sweep as its far fields span. Between two far fields directivity and losses change slowly: a
 * smooth curve through them. The mismatch changes quickly and is known at every frequency of the sweep.
 */
export function gainCurves(response: Response, figures: readonly FarFieldFigures[]): GainCurve[] {
  const ports = [...new Set(figures.map(({ port }) => port))];
  return ports.map((port) => {
    const own = figures.filter((one) => one.port === port).sort((a, b) => a.freqHz - b.freqHz);
    return gainCurve(response, own, port);
  });
}

interface Point {
  readonly freqHz: number;
  readonly gainDbi: number;
  readonly realisedGainDbi: number;
  readonly gainAheadDbi: number;
}

function gainCurve({ freqHz, s }: Response, solved: readonly FarFieldFigures[], port: number): GainCurve {
  const at = solved.map((one) => one.freqHz);
  const [first = 0, last = 0] = [at[0], at.at(-1)];
  const curveOf = (values: readonly number[]) => smoothCurve(at, values);
  const gain = curveOf(solved.map((one) => one.gainDbi));
  const ahead = curveOf(solved.map((one) => one.gainAheadDbi));
  const between = freqHz.flatMap((hz, i): Point[] => {
    if (!within(hz, first, last) || at.some((one) => within(hz, one, one))) return [];
    const gainDbi = gain(hz);
    return [{ freqHz: hz, gainDbi, realisedGainDbi: gainDbi + mismatchDb(s[i], port), gainAheadDbi: ahead(hz) }];
  });
  const points = [...solved, ...between].sort((a, b) => a.freqHz - b.freqHz);
  return {
    port,
    solvedHz: at,
    freqHz: points.map((point) => point.freqHz),
    gainDbi: points.map((point) => point.gainDbi),
    realisedGainDbi: points.map((point) => point.realisedGainDbi),
    gainAheadDbi: points.map((point) => point.gainAheadDbi),
  };
}

/** Sums such as 0.85 f leave their rounding at the ends. */
const within = (hz: number, low: number, high: number): boolean => hz >= low * (1 - 1e-9) && hz <= high * (1 + 1e-9);

/** What one port takes, the others ending in their reference, over what its generator could give: 1 - sum |S|^2, dB. */
function mismatchDb(matrix: readonly (readonly Complex[])[] | undefined, port: number): number {
  const back = (matrix ?? []).reduce((sum, row) => sum + magnitude(row[port] ?? { re: 0, im: 0 }) ** 2, 0);
  return 10 * Math.log10(Math.max(1e-9, 1 - back));
}

/** A value of a curve, and where. */
export interface GainAt {
  readonly dbi: number;
  readonly freqHz: number;
}

/** Lowest and highest of one kind of gain between two frequencies; undefined when the curve has no point there. */
export function gainWithin(
  curve: GainCurve,
  { lowHz, highHz }: { readonly lowHz: number; readonly highHz: number },
  kind: 'gainDbi' | 'realisedGainDbi',
): { readonly lowest: GainAt; readonly highest: GainAt } | undefined {
  const points = curve.freqHz
    .map((freqHz, n): GainAt => ({ freqHz, dbi: curve[kind][n] ?? Number.NaN }))
    .filter(({ freqHz }) => within(freqHz, lowHz, highHz));
  const [first, ...rest] = points;
  if (first === undefined) return undefined;
  return {
    lowest: rest.reduce((a, b) => (b.dbi < a.dbi ? b : a), first),
    highest: rest.reduce((a, b) => (b.dbi > a.dbi ? b : a), first),
  };
}
