import { readFileSync } from 'node:fs';
import { readDesign } from '@sheetwave/design';
import { assemble } from '@sheetwave/geometry';
import { describe, expect, it } from 'vitest';
import { predictOptions } from './predict-options.ts';
import { solverFor } from './solver.ts';

const EXAMPLE = readFileSync(new URL('../../../examples/laser-single-2g4/design.toml', import.meta.url), 'utf8');

function solver() {
  const { design } = readDesign(EXAMPLE);
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
