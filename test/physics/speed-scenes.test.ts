import { planScene, type Scene } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';

/** What speed is measured on, `packages/field/bench`; plain JavaScript without types. */
interface SpeedScenes {
  readonly BAND: { readonly low: number; readonly high: number };
  readonly oneStack: Scene;
  readonly fourStacks: Scene;
  readonly CHOICES: Readonly<Record<string, { quality: 'draft' | 'normal' | 'fine'; cellsPerWavelength: number }>>;
}

const at = new URL('../../packages/field/bench/scenes.mjs', import.meta.url).href;

describe('the scenes on which speed is measured', async () => {
  const { BAND, oneStack, fourStacks, CHOICES } = (await import(at)) as SpeedScenes;
  const { small, large } = CHOICES;

  it.each([
    ['one stack', oneStack, small, 0.15e6],
    ['four stacks', fourStacks, large, 4.1e6],
  ] as const)('%s: can be solved, and has about as many cells as the goals name', (_, scene, choice, cells) => {
    if (!choice) throw new RangeError('There is no such choice.');
    const { cellsPerWavelength, quality } = choice;
    const { report } = planScene(scene, { band: BAND, quality, rules: { cellsPerWavelength }, symmetry: false });
    expect(report.cells / cells).toBeGreaterThan(0.85);
    expect(report.cells / cells).toBeLessThan(1.15);
  });

  it('four stacks at normal quality can be solved', () => {
    const options = { band: BAND, quality: 'normal', symmetry: false, farFieldHz: [5.3e9] } as const;
    expect(planScene(fourStacks, options).report.cells).toBeGreaterThan(1e5);
  });
});
