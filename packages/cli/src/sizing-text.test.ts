import { type Design, readDesign } from '@sheetwave/design';
import { sizeDesign } from '@sheetwave/predict';
import { onePortResponse, sweepFrequencies } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';
import { sizingJson, sizingText } from './sizing-text.ts';

const TEXT = `format = 1
name = "Orchard patch"
[band]
low = "5.4 GHz"
high = "5.5 GHz"
[targets]
vswr = 1.5
[reflector]
size = { width = "90 mm", height = "90 mm" }
sheet = "brass-1.0"
[[layer]]
shape = "rectangle"
length = "23 mm"
width = "23 mm"
sheet = "brass-0.5"
spacer = "plain-m3-3-nylon"
[feed]
from_edge = "4 mm"
[coax]
stock = "semi-rigid-141"
[free]
layer.driven.length = { from = "20 mm", to = "26 mm" }
`;

/** A matched resonator that meets the target at 23.3 mm only: 1 % of length is 1 % of frequency, and VSWR 1.5 ends 1 % away (Q 20). */
const resonator = async (design: Design) => {
  const [layer] = design.layers;
  const lengthMm = layer?.shape.kind === 'rectangle' ? layer.shape.lengthMm : Number.NaN;
  const resonantHz = (5.45e9 * 23.3) / lengthMm;
  const response = onePortResponse({
    origin: 'prediction',
    method: 'a resonator',
    error: { origin: 'invented' },
    freqHz: sweepFrequencies(5e9, 5.9e9, 181),
    referenceOhm: 50,
    impedance: (freqHz) => {
      const x = 10 * (freqHz / resonantHz - resonantHz / freqHz);
      return { re: 50 / (1 + x ** 2), im: (-50 * x) / (1 + x ** 2) };
    },
  });
  return { response };
};

async function sized(roundMm: number | undefined) {
  const { design } = readDesign(TEXT);
  const sizing = await sizeDesign({ designText: TEXT, solve: resonator, roundMm, budget: 15 });
  if (!sizing.ok || design === undefined) throw new Error('the design can be sized');
  const shown = { design, file: 'B.toml', budget: 15 };
  return { sizing, text: sizingText(sizing, shown), shown };
}

describe('what size prints', () => {
  it('says once whether the goal is met', async () => {
    const { sizing, text } = await sized(undefined);
    expect(sizing.reached).toBe(true);
    expect(text.match(/goal/g)).toHaveLength(1);
    expect(text).toMatch(/The goal is met after \d+ field solutions\./);
  });

  it('says that rounding spoils a goal that was met, and never that it is met', async () => {
    const { sizing, text, shown } = await sized(1);
    expect(sizing).toMatchObject({ reached: false, ended: 'reached', limits: { sentences: [] } });
    expect(sizing.best.sizesMm['layer[0].length']).toBe(23);
    expect(text).not.toMatch(/goal is (?:not )?met after/);
    expect(text).toMatch(/The goal was met, and rounding spoils it/);
    expect(text).toMatch(/Rounding took the worst VSWR from 1\.\d\d to \d\.\d\d\.\nA finer --round costs less/);
    const json = sizingJson(sizing, shown);
    expect(json).toMatchObject({ reached: false, rounding: { vswrAfter: sizing.best.score.vswr } });
  });
});
