import type { Design } from '@sheetwave/design';
import type { MatchedBand, PredictedResonance, Prediction, ResonanceKind } from '../prediction.ts';
import { fixed, ghz, mhz, ohms, ratio } from './format.ts';
import type { ReportTable } from './prediction-report.ts';

/** Most free oscillations that are listed for one port: weaker ones are of no use to a builder. */
const MOST_POLES = 3;
/** Oscillations weaker than this part of the strongest one are left out. */
const LEAST_STRENGTH = 0.05;

/** Match and resonances of each port. */
export function matchTables(design: Design, prediction: Prediction): readonly ReportTable[] {
  return prediction.ports.map(({ name, referenceOhm }, port) => ({
    title: `Match at ${name}, ${fixed(referenceOhm, 0)} ohm`,
    columns: ['predicted', 'remark'],
    rows: [...resonanceRows(prediction, port), ...bandRows(prediction, port), ...targetRows(design, prediction, port)],
  }));
}

type Row = ReportTable['rows'][number];

export const RESONANCE_WORDS: Readonly<Record<ResonanceKind, string>> = {
  pole: 'Resonance: free oscillation',
  'reactance-zero': 'Resonance: reactance passes zero',
  'resistance-peak': 'Resonance: resistance is greatest',
  'least-reflection': 'Resonance: best match',
};

function resonanceRows({ resonances, response }: Prediction, port: number): readonly Row[] {
  const own = resonances.filter((one) => one.port === port);
  const poles = own
    .filter(({ kind, strength = 1 }) => kind === 'pole' && strength >= LEAST_STRENGTH)
    .sort((a, b) => (b.strength ?? 1) - (a.strength ?? 1))
    .slice(0, MOST_POLES)
    .sort((a, b) => a.freqHz - b.freqHz);
  const others = own.filter(({ kind }) => kind !== 'pole');
  return [...poles, ...others].map((one) => resonanceRow(one, response.error.frequency));
}

function resonanceRow({ kind, freqHz, q, zOhm }: PredictedResonance, error: number | undefined): Row {
  const off = error === undefined ? '' : ` ± ${mhz(error * freqHz)}`;
  const remarks = [...(q === undefined ? [] : [`Q ${fixed(q, 1)}`]), ...(zOhm === undefined ? [] : [ohms(zOhm)])];
  return { what: RESONANCE_WORDS[kind], cells: [`${ghz(freqHz)}${off}`, remarks.join(', ')] };
}

function bandRows({ bands, matches }: Prediction, port: number): readonly Row[] {
  const best = matches.find((match) => match.port === port);
  const rows = bands
    .filter((band) => band.port === port)
    .map(
      (band): Row => ({
        what: `VSWR ${fixed(band.vswr, 2)} or better`,
        cells: [`${ghz(band.lowHz)} to ${ghz(band.highHz)}`, bandRemark(band)],
      }),
    );
  if (best === undefined) return rows;
  return [
    { what: 'Best match of the sweep', cells: [`VSWR ${ratio(best.bestVswr)}`, `at ${ghz(best.bestHz)}`] },
    ...rows,
  ];
}

function bandRemark({ percent, isCutOffLow, isCutOffHigh }: MatchedBand): string {
  const width = `${fixed(percent, 1)} % wide`;
  if (!isCutOffLow && !isCutOffHigh) return width;
  const ends = [...(isCutOffLow ? ['below'] : []), ...(isCutOffHigh ? ['above'] : [])].join(' and ');
  return `at least ${width}: may reach on ${ends} the sweep`;
}

function targetRows(design: Design, { matches }: Prediction, port: number): readonly Row[] {
  const match = matches.find((one) => one.port === port);
  if (match === undefined) return [];
  const wanted = `wanted ${fixed(design.targets.vswr, 2)}`;
  return [
    {
      what: `Worst over the band, ${ghz(match.lowHz)} to ${ghz(match.highHz)}`,
      cells: [`VSWR ${ratio(match.worstVswr)}`, `at ${ghz(match.worstHz)}, ${wanted}`],
    },
  ];
}
