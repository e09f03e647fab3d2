import { type Design, readDesign } from '@sheetwave/design';
import { onePortResponse, sweepFrequencies } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';
import type { HistorySource } from '../log/history.ts';
import { trimPast } from './past.ts';

function designOf(length: string, more = ''): Design {
  const { design, findings } = readDesign(`format = 1
name = "Heron Lock"
[band]
low = "5.6 GHz"
high = "5.8 GHz"
[reflector]
size = { width = "60 mm", height = "60 mm" }
sheet = "brass-1.0"
[[layer]]
shape = "rectangle"
length = "${length}"
width = "22 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"
${more}[feed]
from_edge = "3 mm"
[coax]
stock = "semi-rigid-141"
`);
  if (design === undefined) throw new Error(JSON.stringify(findings));
  return design;
}

const PARASITIC = `[[layer]]
shape = "rectangle"
length = "18 mm"
width = "20 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"
`;

const sweep = (resistance: number, [low, high] = [5e9, 6.4e9]) =>
  onePortResponse({
    origin: 'measurement',
    method: 'Made up.',
    error: { origin: 'None.' },
    freqHz: sweepFrequencies(low ?? 0, high ?? 0, 15),
    referenceOhm: 50,
    impedance: () => ({ re: resistance, im: 0 }),
  });

const source = (number: number, given: Pick<HistorySource, 'design' | 'sweep'>, mm?: number): HistorySource => ({
  entry: {
    number,
    date: '2026-05-17',
    design: { file: 'designs/a.toml', sha256: 'ab'.repeat(32), name: 'Heron Lock', revision: 'A' },
    ...(mm === undefined ? {} : { measuredMm: { 'layer[0].length': mm } }),
  },
  ...given,
});

describe('trimPast', () => {
  const now = designOf('19.5 mm');
  const inHand = sweep(60);

  it('gives earlier sweeps with what has been cut since, and readings as they are after the cut', () => {
    // 19.9 mm then, 19.5 mm now: the antenna was 0.4 mm longer. Read as 19.95 mm then, it is 19.55 mm now.
    const past = trimPast([source(1, { design: designOf('19.9 mm'), sweep: sweep(75) }, 19.95)], now, inHand);
    expect(past.sweeps).toHaveLength(1);
    expect(Object.keys(past.sweeps[0]?.changes ?? {})).toEqual(['layer[0].length']);
    expect(past.sweeps[0]?.changes['layer[0].length']).toBeCloseTo(0.4e-3, 9);
    // 75 ohm against 50: a reflection of 25/125 = 0.2.
    expect(past.sweeps[0]?.reflection[3]?.re).toBeCloseTo(0.2, 9);
    expect(past.readings['layer[0].length']).toBeCloseTo(19.55e-3, 9);
  });

  it('leaves out the sweep in hand, one that misses the band, and entries of another structure or without their copies', () => {
    const other = designOf('19.5 mm', PARASITIC);
    const past = trimPast(
      [
        source(1, { design: other, sweep: sweep(75) }, 20),
        source(2, { design: undefined, sweep: sweep(75) }, 20),
        source(3, { design: now, sweep: sweep(75, [5.7e9, 6.4e9]) }),
        source(4, { design: now, sweep: inHand }),
      ],
      now,
      inHand,
    );
    expect(past).toEqual({ sweeps: [], readings: {} });
  });
});
