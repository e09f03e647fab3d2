import type { Design } from '@sheetwave/design';
import { gainWithin } from '../gain-curve.ts';
import type { GainCurve, Prediction } from '../prediction.ts';
import { fixed, ghz } from './format.ts';
import type { ReportTable } from './prediction-report.ts';

/** The gain over the design's band and over the whole sweep, a table for each port. Empty without far fields. */
export function gainTables(design: Design, { gains, ports, response }: Prediction): readonly ReportTable[] {
  return gains.map((curve) => ({
    title: ports.length === 1 ? 'Gain over frequency' : `Gain over frequency, driven at ${ports[curve.port]?.name}`,
    columns: ['predicted', 'remark'],
    rows: rowsOf(design, curve, response.error.gainDb),
  }));
}

function rowsOf({ band, targets }: Design, curve: GainCurve, errorDb: number | undefined): ReportTable['rows'] {
  const [lowHz = 0, highHz = 0] = [curve.freqHz[0], curve.freqHz.at(-1)];
  const [withMatch, without] = [gainWithin(curve, band, 'realisedGainDbi'), gainWithin(curve, band, 'gainDbi')];
  const best = gainWithin(curve, { lowHz, highHz }, 'realisedGainDbi')?.highest;
  const off = errorDb === undefined ? '' : ` ± ${fixed(errorDb, 1)} dB`;
  const row = (what: string, at: { readonly dbi: number; readonly freqHz: number } | undefined, more = '') =>
    at === undefined ? [] : [{ what, cells: [`${fixed(at.dbi, 1)} dBi${off}`, `at ${ghz(at.freqHz)}${more}`] }];
  const wanted = targets.gainDbi === undefined ? '' : `, wanted ${fixed(targets.gainDbi, 1)} dBi`;
  return [
    ...row('Lowest over the band, with losses and mismatch', withMatch?.lowest, wanted),
    ...row('Highest over the band, with losses and mismatch', withMatch?.highest),
    ...row('Lowest over the band, with losses', without?.lowest),
    ...row('Highest over the band, with losses', without?.highest),
    ...row(`Best from ${ghz(lowHz)} to ${ghz(highHz)}, with losses and mismatch`, best),
  ];
}
