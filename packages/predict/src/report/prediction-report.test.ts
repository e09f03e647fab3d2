import { readDesign } from '@sheetwave/design';
import { describe, expect, test } from 'vitest';
import type { MatchedBand, Prediction } from '../prediction.ts';
import { predictionReport } from './prediction-report.ts';

const { design } = readDesign(`format = 1
name = "Heron Lock trial"
revision = "B"
[band]
low = "5.7 GHz"
high = "5.9 GHz"
[targets]
vswr = 1.5
gain = "9 dBi"
[reflector]
size = { width = "60 mm", height = "60 mm" }
sheet = "brass-1.0"
process = "laser"
[[layer]]
name = "driven"
shape = "rectangle"
length = "20 mm"
width = "22 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"
process = "laser"
[feed]
kind = "probe"
from_edge = "2.4 mm"
probe_diameter = "0.92 mm"
solder_hole = "1.2 mm"
[harness]
kind = "none"
[coax]
stock = "semi-rigid-141"
connector = "n-plug-cable"
length = "200 mm"
[hardware]
thread = "M3"
screw = "m3-pan-6-brass"
nut = "m3-nut-brass"
`);

const band = (lowHz: number, highHz: number): MatchedBand => ({
  port: 0,
  vswr: 1.5,
  lowHz,
  highHz,
  percent: (200 * (highHz - lowHz)) / (highHz + lowHz),
  isCutOffLow: false,
  isCutOffHigh: true,
  bestVswr: 1.1,
  bestHz: (lowHz + highHz) / 2,
});

/** An invented prediction: only the words made of it are judged. */
const prediction: Prediction = {
  feed: 'as-built',
  quality: 'normal',
  ports: [{ name: 'coax', element: undefined, referenceOhm: 50 }],
  response: {
    origin: 'prediction',
    method: 'invented',
    error: { frequency: 0.005, gainDb: 0.4, origin: 'Invented.' },
    freqHz: [5.7e9, 5.8e9, 5.9e9],
    referenceOhm: 50,
    s: [0.1, 0.2, 0.3].map((re) => [[{ re, im: 0 }]]),
  },
  zOhm: [],
  resonances: [{ kind: 'reactance-zero', port: 0, freqHz: 5.8e9, zOhm: { re: 80, im: -0.2 } }],
  bands: [],
  matches: [{ port: 0, lowHz: 5.7e9, highHz: 5.9e9, worstVswr: 1.9, worstHz: 5.9e9, bestVswr: 1.1, bestHz: 5.8e9 }],
  figures: [],
  gains: [],
  cuts: [],
  coupling: undefined,
  meshError: undefined,
  cost: {
    nodes: [1, 1, 1],
    cells: 1,
    smallestCellM: 1,
    largestCellM: 1,
    timeStepS: 1,
    memoryBytes: 1,
    runs: 1,
    steps: 1,
    mirroredAcross: [],
  },
  runs: [],
  doubts: [],
  findings: [],
};

function reportOf(change: Partial<Prediction>) {
  if (design === undefined) throw new Error('the design of this test has an error');
  return predictionReport(design, { ...prediction, ...change });
}

describe('the report', () => {
  test('gives a resonance with its definition, its error and its impedance', () => {
    const rows = reportOf({}).tables[0]?.rows;
    // 0.5 % of 5.8 GHz is 29 MHz.
    expect(rows).toContainEqual({ what: 'Resonance: reactance passes zero', cells: ['5.800 GHz ± 29 MHz', '80 ohm'] });
  });

  test('says where a stretch may reach on beyond the sweep', () => {
    const rows = reportOf({ bands: [band(5.7e9, 5.9e9)] }).tables[0]?.rows ?? [];
    // 0.2 over 5.8: 3.4 %.
    expect(rows.find(({ what }) => what.startsWith('VSWR 1.50'))?.cells).toEqual([
      '5.700 GHz to 5.900 GHz',
      'at least 3.4 % wide: may reach on above the sweep',
    ]);
  });

  test('a VSWR without end is a word, not a number', () => {
    const [match] = prediction.matches;
    if (match === undefined) throw new Error('one match is given');
    const report = reportOf({ matches: [{ ...match, worstVswr: Number.POSITIVE_INFINITY }] });
    expect(JSON.stringify(report.tables)).toContain('VSWR above 20');
  });
});

describe('what to do next', () => {
  test('a match that lies too high asks for longer patches, by the ratio of the frequencies', () => {
    // Matched about 6.1 GHz, wanted 5.8: 6.1/5.8 = 1.0517, so 20 mm become 21.0 mm.
    const [first] = reportOf({ bands: [band(6.0e9, 6.2e9)] }).next;
    expect(first).toContain('4.9 % too high');
    expect(first).toContain('about 5.2 % longer (the driven patch from 20.0 to about 21.0 mm)');
  });

  test('one that lies too low asks for shorter ones', () => {
    // 5.6/5.8 = 0.9655: 19.3 mm.
    expect(reportOf({ bands: [band(5.5e9, 5.7e9)] }).next[0]).toContain(
      'about 3.4 % shorter (the driven patch from 20.0 to about 19.3 mm)',
    );
  });

  test('without any match the feed moves toward the centre where the resistance is too high, to the edge where too low', () => {
    expect(reportOf({}).next[0]).toContain('toward the centre');
    const low = [{ kind: 'reactance-zero', port: 0, freqHz: 5.8e9, zOhm: { re: 20, im: 0 } }] as const;
    expect(reportOf({ resonances: low }).next[0]).toContain('toward the edge');
    expect(reportOf({ resonances: [] }).next[0]).toContain('never passes zero');
  });

  test('a match that meets the target says so, and a draft is to be solved finer', () => {
    const [match] = prediction.matches;
    if (match === undefined) throw new Error('one match is given');
    const report = reportOf({ quality: 'draft', matches: [{ ...match, worstVswr: 1.4 }] });
    expect(report.next[0]).toContain('meets VSWR 1.50 over the whole band (worst 1.40)');
    expect(report.next.some((step) => step.includes('--quality normal'))).toBe(true);
  });
});
