import type { Design } from '@sheetwave/design';
import type { FarFieldFigures, Prediction } from '../prediction.ts';
import { fixed, ghz, percent } from './format.ts';
import type { ReportTable } from './prediction-report.ts';

/** What the antenna radiates: a column for each frequency, a table for each port. Empty without far fields. */
export function beamTable({ band }: Design, { figures, ports, response, matches }: Prediction): readonly ReportTable[] {
  return ports.flatMap(({ name }, port) => {
    const bestHz = matches.find((match) => match.port === port)?.bestHz;
    const own = shownOf(
      figures.filter((one) => one.port === port),
      { band, bestHz },
    );
    if (own.length === 0) return [];
    const off = response.error.gainDb === undefined ? '' : `, ± ${fixed(response.error.gainDb, 1)} dB`;
    return [
      {
        title: ports.length === 1 ? 'Beam' : `Beam, driven at ${name}`,
        columns: own.map(({ one, isBest }) => `${ghz(one.freqHz)}${isBest ? ', by the best match' : ''}`),
        rows: ROWS.map(([what, cell]) => ({
          what: what === GAIN ? `${what}${off}` : what,
          cells: own.map(({ one }) => cell(one)),
        })),
      },
    ];
  });
}

interface Shown {
  readonly one: FarFieldFigures;
  readonly isBest: boolean;
}

interface Places {
  readonly band: { readonly lowHz: number; readonly highHz: number };
  readonly bestHz: number | undefined;
}

/** The edges and the middle of the design's band, and the far field that is nearest to the best match. */
function shownOf(figures: readonly FarFieldFigures[], { band, bestHz }: Places): readonly Shown[] {
  const inBand = figures.filter(({ freqHz }) => freqHz >= band.lowHz && freqHz <= band.highHz);
  const last = inBand.length - 1;
  const three = last < 3 ? inBand : inBand.filter((_, index) => [0, Math.round(last / 2), last].includes(index));
  const best = bestHz === undefined ? undefined : nearest(figures, bestHz);
  return figures.filter((one) => one === best || three.includes(one)).map((one) => ({ one, isBest: one === best }));
}

function nearest(figures: readonly FarFieldFigures[], hz: number): FarFieldFigures | undefined {
  const off = ({ freqHz }: FarFieldFigures) => Math.abs(freqHz - hz);
  return figures.reduce<FarFieldFigures | undefined>(
    (best, one) => (best === undefined || off(one) < off(best) ? one : best),
    undefined,
  );
}

const GAIN = 'Gain, with losses';
const degrees = (value: number | undefined): string => (value === undefined ? 'no edge' : `${fixed(value, 0)}°`);

const ROWS: readonly (readonly [what: string, cell: (one: FarFieldFigures) => string])[] = [
  ['Directivity', (one) => `${fixed(one.directivityDbi, 1)} dBi`],
  [GAIN, (one) => `${fixed(one.gainDbi, 1)} dBi`],
  ['Gain, with losses and mismatch', (one) => `${fixed(one.realisedGainDbi, 1)} dBi`],
  ['Gain straight ahead', (one) => `${fixed(one.gainAheadDbi, 1)} dBi`],
  ['Beam points', ({ beam }) => `${side(beam.upDeg, 'up', 'down')}, ${side(beam.rightDeg, 'right', 'left')}`],
  ['Beamwidth, up and down', (one) => degrees(one.beamwidthVerticalDeg)],
  ['Beamwidth, left and right', (one) => degrees(one.beamwidthHorizontalDeg)],
  ['Front to back', (one) => `${fixed(one.frontToBackDb, 1)} dB`],
  ['Side lobes below the beam', (one) => (one.sideLobeDb === undefined ? 'none' : `${fixed(one.sideLobeDb, 1)} dB`)],
  [
    'Cross-polarisation below the beam',
    ({ crossPolarisationDb: db }) => (db > 40 ? 'above 40 dB' : `${fixed(db, 1)} dB`),
  ],
  ['Efficiency', (one) => percent(one.efficiency, 0)],
];

function side(deg: number, positive: string, negative: string): string {
  return `${fixed(Math.abs(deg), 0)}° ${deg < 0 ? negative : positive}`;
}
