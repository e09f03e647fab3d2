import { coarserRules, GRID_RULES } from '@sheetwave/field';
import type { Assembly } from '@sheetwave/geometry';
import { gainWithin } from '../gain-curve.ts';
import { planPrediction } from '../plan-prediction.ts';
import { predict } from '../predict.ts';
import type { PredictOptions } from '../predict-options.ts';
import type { Prediction } from '../prediction.ts';
import type { FlatCover } from '../scene/cover.ts';
import type { CoverChange, CoveredMode, CoverPrediction } from './cover-prediction.ts';

/** Of a grid and one whose cells are longer by the root of 2: both with and without the cover. */
interface Solved {
  readonly without: Prediction;
  readonly with: Prediction;
}

const GRIDS = ['coarse', 'own'] as const;

/**
 * What a flat cover does: the antenna solved with the cover and with air in its place, on the very same grid, so that most of the error of the grid
 * falls out of the difference; and both again on a coarser grid, which says what is left of it.
 *
 * @throws FieldError, in terms of the design, when something is in the way of the cover or a run gives no answer.
 */
export async function predictCover(
  assembly: Assembly,
  cover: FlatCover,
  options: PredictOptions = {},
): Promise<CoverPrediction> {
  const { quality = 'normal' } = options;
  const found = new Map<(typeof GRIDS)[number], Solved>();
  for (const [g, grid] of GRIDS.entries()) {
    const solve = (filled: boolean) =>
      predict(assembly, {
        ...options,
        ...gridOptions(grid, quality),
        cover: { ...cover, filled },
        ...counted(options, 2 * g + (filled ? 1 : 0)),
      });
    found.set(grid, { without: await solve(false), with: await solve(true) });
  }
  const [own, coarse] = [found.get('own'), found.get('coarse')];
  if (own === undefined || coarse === undefined) throw new Error('both grids were solved');
  return coverPrediction(assembly, cover, { own, coarse });
}

/** Cells times steps of all four runs. */
export function coverWork(assembly: Assembly, cover: FlatCover, options: PredictOptions = {}): number {
  const { quality = 'normal' } = options;
  const work = (grid: (typeof GRIDS)[number]) =>
    planPrediction(assembly, { ...options, ...gridOptions(grid, quality), cover: { ...cover, filled: true } }).work;
  return 2 * (work('coarse') + work('own'));
}

const gridOptions = (grid: (typeof GRIDS)[number], quality: Prediction['quality']): Pick<PredictOptions, 'rules'> =>
  grid === 'own' ? {} : { rules: coarserRules(quality, GRID_RULES[quality]) };

function counted({ onProgress }: PredictOptions, run: number): Pick<PredictOptions, 'onProgress'> {
  if (onProgress === undefined) return {};
  return { onProgress: (at) => onProgress({ ...at, run, runs: 2 * GRIDS.length }) };
}

/**
 * Of the change between two grids what is left in the finer one: cells longer by the root of 2, and an error that falls with the power 1.5 of the
 * cell (L. F. Richardson, Phil. Trans. 210 (1911) 307), as for any prediction.
 */
const REMAINING = 1 / (Math.SQRT2 ** 1.5 - 1);

/**
 * And never less than this share of the change: a draft grid came within 3 % of a solution in the spectral domain (-479 of -494 MHz, +56 of
 * +56 MHz, for a sheet of 2 mm 1 and 4 mm in front of a patch).
 */
const LEAST_SHARE = 0.03;

function change(own: readonly [number, number], coarse: readonly [number, number] | undefined): CoverChange {
  const [moved, before] = [own[1] - own[0], coarse && coarse[1] - coarse[0]];
  const left = before === undefined ? undefined : REMAINING * Math.abs(moved - before);
  const error = left === undefined ? undefined : Math.max(left, LEAST_SHARE * Math.abs(moved));
  return { without: own[0], with: own[1], error };
}

interface Pair {
  readonly own: Solved;
  readonly coarse: Solved;
}

/** A number that may be missing, read off all four solutions. */
function changeOf(
  { own, coarse }: Pair,
  read: (prediction: Prediction) => number | undefined,
): CoverChange | undefined {
  const [without, withIt] = [read(own.without), read(own.with)];
  if (without === undefined || withIt === undefined) return undefined;
  const [before, after] = [read(coarse.without), read(coarse.with)];
  const known = before !== undefined && after !== undefined;
  return change([without, withIt], known ? [before, after] : undefined);
}

function coverPrediction(assembly: Assembly, cover: FlatCover, pair: Pair): CoverPrediction {
  const { band } = assembly.design;
  const all = (read: (prediction: Prediction) => number | undefined): CoverChange => {
    const change = changeOf(pair, read);
    if (change === undefined) throw new Error('a prediction has a match and a gain');
    return change;
  };
  const least = (kind: 'gainDbi' | 'realisedGainDbi') => (prediction: Prediction) => {
    const [curve] = prediction.gains;
    return curve && gainWithin(curve, band, kind)?.lowest.dbi;
  };
  const { widthMm, heightMm } = assembly.reflector;
  const match = (key: 'bestHz' | 'bestVswr' | 'worstVswr') => (prediction: Prediction) => prediction.matches[0]?.[key];
  return {
    cover,
    widthMm,
    heightMm,
    quality: pair.own.with.quality,
    modes: modesOf(pair, (band.lowHz + band.highHz) / 2),
    bestMatchHz: all(match('bestHz')),
    bestVswr: all(match('bestVswr')),
    worstVswr: all(match('worstVswr')),
    leastGainDbi: all(least('gainDbi')),
    leastRealisedGainDbi: all(least('realisedGainDbi')),
    doubts: [
      'The cover is a flat plate as large as the reflector: the walls and the rest of a box are left out.',
      ...pair.own.with.doubts,
    ],
  };
}

/** Weaker oscillations than this hardly show, and their places are not sure. */
const LEAST_STRENGTH = 0.1;
const MOST_MODES = 3;
/** A resonance that moves by more than this is taken for another one. */
const FARTHEST = 0.12;

type Resonance = Prediction['resonances'][number];

function modesOf(pair: Pair, centreHz: number): CoveredMode[] {
  const poles = resonancesOf(pair.own.without, 'pole')
    .sort((a, b) => (b.strength ?? 1) - (a.strength ?? 1))
    .slice(0, MOST_MODES)
    .flatMap((pole) => modeOf(pair, pole));
  if (poles.length > 0) return poles;
  for (const kind of ['resistance-peak', 'reactance-zero'] as const) {
    const [middle] = resonancesOf(pair.own.without, kind).sort((a, b) => off(a, centreHz) - off(b, centreHz));
    const found = middle === undefined ? [] : modeOf(pair, middle);
    if (found.length > 0) return found;
  }
  return [];
}

/** One resonance through all four solutions; none when it is lost on the way. */
function modeOf({ own, coarse }: Pair, one: Resonance): CoveredMode[] {
  const moved = nearest(own.with, one);
  if (moved === undefined) return [];
  const [before, after] = [nearest(coarse.without, one), nearest(coarse.with, moved)];
  const changeIn = (read: (each: Resonance) => number): CoverChange =>
    change([read(one), read(moved)], before && after && [read(before), read(after)]);
  const { kind } = one;
  const freqHz = changeIn((each) => each.freqHz);
  return [{ kind, freqHz, q: kind === 'pole' ? changeIn(({ q = Number.NaN }) => q) : undefined }];
}

const off = ({ freqHz }: Resonance, hz: number): number => Math.abs(freqHz / hz - 1);

const resonancesOf = ({ resonances }: Prediction, kind: Resonance['kind']): Resonance[] =>
  resonances.filter((one) => one.kind === kind && one.port === 0 && (one.strength ?? 1) >= LEAST_STRENGTH);

function nearest(prediction: Prediction, { kind, freqHz }: Resonance): Resonance | undefined {
  const [first, ...rest] = resonancesOf(prediction, kind).filter((one) => off(one, freqHz) < FARTHEST);
  return first && rest.reduce((best, one) => (off(one, freqHz) < off(best, freqHz) ? one : best), first);
}
