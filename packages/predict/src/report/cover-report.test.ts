import { describe, expect, it } from 'vitest';
import type { CoverPrediction } from '../cover/cover-prediction.ts';
import { coverReport } from './cover-report.ts';

/** Invented numbers: only the words made of them are judged. */
const PREDICTION: CoverPrediction = {
  cover: { thicknessMm: 2, distanceMm: 26, permittivity: 2.7, lossTangent: 0.009 },
  widthMm: 130,
  heightMm: 140,
  quality: 'normal',
  modes: [
    {
      kind: 'pole',
      freqHz: { without: 5.8e9, with: 5.766e9, error: 2e6 },
      q: { without: 12, with: 11, error: undefined },
    },
  ],
  bestMatchHz: { without: 5.8e9, with: 5.79e9, error: 1e6 },
  bestVswr: { without: 1.1, with: 1.2, error: 0.02 },
  worstVswr: { without: 1.4, with: 1.9, error: 0.05 },
  leastGainDbi: { without: 14, with: 13.75, error: 0.04 },
  leastRealisedGainDbi: { without: 13.9, with: 13.4, error: 0.05 },
  doubts: ['It is flat.'],
};

describe('the report of a cover', () => {
  const { heading, table, trust, next } = coverReport(PREDICTION);
  it('gives every number without, with and its change with sign and error', () => {
    expect(heading).toContain('130 x 140 mm, 2 mm thick, permittivity 2.7, loss tangent 0.009, 26 mm in front');
    const cells = (what: string) => table.rows.find((row) => row.what === what)?.cells;
    expect(cells('Resonance: free oscillation')).toEqual(['5.800 GHz', '5.766 GHz', '\u221234 MHz ± 2 MHz']);
    expect(cells('  its Q')).toEqual(['12.0', '11.0', '\u22121.0, error not known']);
    expect(cells('Worst VSWR over the band')).toEqual(['1.40', '1.90', '+0.50 ± 0.05']);
    expect(cells('Lowest gain over the band, with losses')).toEqual([
      '14.0 dBi',
      '13.8 dBi',
      '\u22120.25 dB ± 0.04 dB',
    ]);
  });
  it('tells what another make of the plastic does: 34 MHz * 0.1 / 1.7', () => {
    expect(trust.join(' ')).toContain(
      'off by 0.1, as plastics of one name differ, moves the resonance by another 2 MHz',
    );
  });
  it('asks for an antenna tuned higher where the cover lowers it, and for nothing where it does no harm', () => {
    expect(next[0]).toMatch(/tune the antenna higher/);
    expect(coverReport({ ...PREDICTION, worstVswr: { without: 1.4, with: 1.3, error: 0 } }).next[0]).toMatch(/as good/);
    // Without a mode the best match tells the way.
    const raised = { without: 5.8e9, with: 5.81e9, error: 0 };
    expect(coverReport({ ...PREDICTION, modes: [], bestMatchHz: raised }).next[0]).toMatch(/tune the antenna lower/);
  });
});
