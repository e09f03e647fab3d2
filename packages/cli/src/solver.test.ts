import { readDesign } from '@sheetwave/design';
import { assemble } from '@sheetwave/geometry';
import { describe, expect, it } from 'vitest';
import { predictOptions } from './predict-options.ts';
import { solverFor } from './solver.ts';

const TRIAL = `format = 1
name = "Heron Lock trial patch"
revision = "A"
[band]
low = "5.6 GHz"
high = "6.0 GHz"
[reflector]
size = { width = "60 mm", height = "60 mm" }
sheet = "brass-1.0"
process = "laser"
[[layer]]
name = "driven"
shape = "rectangle"
length = "19.5 mm"
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
`;

function solver() {
  const { design } = readDesign(TRIAL);
  const { assembly } = design === undefined ? { assembly: undefined } : assemble(design);
  if (assembly === undefined) throw new Error('the design of this test has an error');
  return solverFor(
    { assembly },
    predictOptions(
      new Set(),
      new Map([
        ['threads', '1'],
        ['quality', 'fine'],
      ]),
    ),
  );
}

describe('the trial before the time is told', () => {
  it('gives cells times steps in a second, and ends long before the run would', async () => {
    const one = solver();
    const speed = await one.measureSpeed(new AbortController().signal);
    expect(speed).toBeGreaterThan(0);
    // The 0.8 s of the trial are only a part of the run.
    expect((speed ?? Number.NaN) * 0.8).toBeLessThan(one.plan.work);
  });
  it('ends at once, with the reason, when the user has had enough', async () => {
    await expect(solver().measureSpeed(AbortSignal.abort(new Error('enough')))).rejects.toThrow('enough');
  });
});
