import type { CoverChange, CoverPrediction } from '../cover/cover-prediction.ts';
import { fixed, ghz, mhz, ratio } from './format.ts';
import { RESONANCE_WORDS } from './match-table.ts';
import type { ReportTable } from './prediction-report.ts';

/** What a cover does, as a builder reads it. */
export interface CoverReport {
  readonly heading: string;
  readonly table: ReportTable;
  /** How far to trust it. */
  readonly trust: readonly string[];
  readonly leavesOut: readonly string[];
  readonly next: readonly string[];
}

/** How much the permittivity of a plastic differs from one make to the next (handbook tables give ranges this wide; memory). */
const SPREAD = 0.1;

export function coverReport(prediction: CoverPrediction): CoverReport {
  const { cover, quality, widthMm, heightMm, modes, bestMatchHz, doubts } = prediction;
  const size = `${fixed(widthMm, 0)} x ${fixed(heightMm, 0)} mm, ${plain(cover.thicknessMm)} mm thick`;
  const made = `permittivity ${plain(cover.permittivity)}, loss tangent ${plain(cover.lossTangent)}`;
  const main = modes[0]?.freqHz ?? bestMatchHz;
  return {
    heading: `a flat cover ${size}, ${made}, ${plain(cover.distanceMm)} mm in front of the outermost patch (${quality} grid)`,
    table: { title: 'With and without the cover', columns: ['without', 'with', 'change'], rows: rowsOf(prediction) },
    trust: [
      'Both were solved on one grid, which leaves little error in the change; what is left is from a second, coarser grid.',
      ...(cover.permittivity < 1 + SPREAD ? [] : [spreadWords(main, cover.permittivity)]),
    ],
    leavesOut: doubts,
    next: nextOf(prediction),
  };
}

const plain = (value: number): string => String(Number(value.toPrecision(4)));

/** The change goes with what the permittivity is above that of air, to first order. */
function spreadWords({ without, with: withIt }: CoverChange, permittivity: number): string {
  const moved = (Math.abs(withIt - without) * SPREAD) / (permittivity - 1);
  return `A permittivity that is off by ${SPREAD}, as plastics of one name differ, moves the resonance by another ${mhz(moved)}.`;
}

function rowsOf(prediction: CoverPrediction): ReportTable['rows'] {
  const { modes, bestMatchHz, bestVswr, worstVswr, leastGainDbi, leastRealisedGainDbi } = prediction;
  const row = (what: string, change: CoverChange, { show, moved }: Cells) => ({
    what,
    cells: [show(change.without), show(change.with), movedWords(change, moved)],
  });
  return [
    ...modes.flatMap(({ kind, freqHz, q }) => [
      row(RESONANCE_WORDS[kind], freqHz, HERTZ),
      ...(q === undefined ? [] : [row('  its Q', q, PLAIN)]),
    ]),
    row('Best match of the sweep', bestMatchHz, HERTZ),
    row('VSWR there', bestVswr, RATIO),
    row('Worst VSWR over the band', worstVswr, RATIO),
    row('Lowest gain over the band, with losses', leastGainDbi, GAIN),
    row('Lowest gain over the band, with losses and mismatch', leastRealisedGainDbi, GAIN),
  ];
}

interface Cells {
  readonly show: (value: number) => string;
  /** Size of a change, without its sign. */
  readonly moved: (value: number) => string;
}

const HERTZ: Cells = { show: ghz, moved: mhz };
const PLAIN: Cells = { show: (value) => fixed(value, 1), moved: (value) => fixed(value, 1) };
const RATIO: Cells = { show: ratio, moved: (value) => (value > 20 ? 'above 20' : fixed(value, 2)) };
const GAIN: Cells = { show: (value) => `${fixed(value, 1)} dBi`, moved: (value) => `${fixed(value, 2)} dB` };

function movedWords({ without, with: withIt, error }: CoverChange, moved: Cells['moved']): string {
  const change = withIt - without;
  const off = error === undefined ? ', error not known' : ` ± ${moved(error)}`;
  return `${change < 0 ? '\u2212' : '+'}${moved(Math.abs(change))}${off}`;
}

function nextOf({ modes, bestMatchHz, worstVswr, cover }: CoverPrediction): readonly string[] {
  const { without, with: withIt } = modes[0]?.freqHz ?? bestMatchHz;
  const way = withIt < without ? 'higher' : 'lower';
  return [
    ...(worstVswr.with > worstVswr.without + 0.05
      ? [
          `The cover makes the match worse: put it further away (${plain(cover.distanceMm)} mm now), make it thinner, or tune the antenna ${way} so that the cover brings it back.`,
        ]
      : ['The match over the band is as good with the cover, or better.']),
    'Sweep the antenna in its cover before it goes up: the sweep decides.',
  ];
}
