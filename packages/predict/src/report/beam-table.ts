import type { FarFieldFigures, Prediction } from '../prediction.ts';
import { fixed, ghz, percent } from './format.ts';
import type { ReportTable } from './prediction-report.ts';

/** What the antenna radiates, a column for each frequency, a table for each port. Empty without far fields. */
export function beamTable({ figures, ports, response }: Prediction): readonly ReportTable[] {
  return ports.flatMap(({ name }, port) => {
    const own = edgesAndMiddle(figures.filter((one) => one.port === port));
    if (own.length === 0) return [];
    const off = response.error.gainDb === undefined ? '' : `, ± ${fixed(response.error.gainDb, 1)} dB`;
    return [
      {
        title: ports.length === 1 ? 'Beam' : `Beam, driven at ${name}`,
        columns: own.map(({ freqHz }) => ghz(freqHz)),
        rows: ROWS.map(([what, cell]) => ({
          what: what === GAIN ? `${what}${off}` : what,
          cells: own.map(cell),
        })),
      },
    ];
  });
}

/** Three columns tell enough: the lowest, the middle and the highest frequency. */
function edgesAndMiddle(figures: readonly FarFieldFigures[]): readonly FarFieldFigures[] {
  const last = figures.length - 1;
  return last < 3 ? figures : figures.filter((_, index) => [0, Math.round(last / 2), last].includes(index));
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
