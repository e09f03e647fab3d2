import { type Design, readDesign } from '@sheetwave/design';
import { onePortResponse, sweepFrequencies } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';
import { FREE, FREE_PARASITIC, stackText } from '../../testing/designs.ts';
import { standInSolve } from '../../testing/stand-in.ts';
import { guidedSizes } from './guided-start.ts';
import { sizeDesign } from './size-design.ts';
import { variablesOf } from './variables.ts';

const TWO = stackText(2, FREE + FREE_PARASITIC);

function guided(text: string, centreHz: number) {
  const { design } = readDesign(text);
  if (design === undefined) throw new Error('the design reads');
  return guidedSizes(design, variablesOf(design.free), centreHz);
}

/** The ranges without their ends. */
const wide = (text: string) =>
  text.replace(/from = "[\d.]+ mm", to = "[\d.]+ mm"(, step = "[\d.]+ mm")?/g, 'from = "0.5 mm", to = "80 mm"');

describe('guidedSizes', () => {
  it('scales with the wavelength, as solutions of the field equations do', () => {
    const at = (hz: number) => guided(wide(TWO), hz) ?? [];
    at(5e9).forEach((mm, i) => {
      // Half the frequency, twice the size; both are written to a hundredth of a millimetre.
      expect(Math.abs((at(2.5e9)[i] ?? 0) - 2 * mm)).toBeLessThan(0.016);
    });
    // By path: driven length and gap, parasitic length and gap, feed. A driven patch is below half a wave (59.96/2 mm), its parasitic shorter.
    const [driven = 0, gap = 0, parasitic = 0, , feed = 0] = at(5e9);
    expect(driven).toBeLessThan(29.98);
    expect(parasitic).toBeLessThan(driven);
    expect(parasitic).toBeGreaterThan(0.7 * driven);
    expect(gap).toBeLessThan(0.1 * 59.96);
    expect(feed).toBeLessThan(driven / 2);
  });

  it('stays within the ranges, and has nothing to say of arrays', () => {
    const { design } = readDesign(TWO);
    const sizes = guided(TWO, 2.4e9) ?? [];
    design?.free.forEach((free, i) => {
      if (free.kind === 'length') expect(sizes[i]).toBeLessThanOrEqual(free.toMm);
    });
    const array: Design | undefined = design && { ...design, lattice: { ...design.lattice, rows: 2 } };
    expect(array && guidedSizes(array, variablesOf(array.free), 5e9)).toBeUndefined();
  });
});

describe('sizing from sizes that belong to another band', () => {
  // The sizes of 5.5 GHz in a design for 2.7 GHz.
  const far = wide(TWO)
    .replace('"5.2 GHz"', '"2.6 GHz"')
    .replace('"5.8 GHz"', '"2.8 GHz"')
    .replaceAll('"90 mm"', '"180 mm"');

  it('goes on from the start that suits such a stack', async () => {
    const found = await sizeDesign({
      designText: far,
      solve: async (one) => ({ response: standInSolve(one) }),
      budget: 3,
    });
    if (!found.ok) throw new Error('it can be sized');
    const [first, second] = found.steps;
    expect(first?.sizesMm['layer[0].length']).toBe(22);
    expect(second?.sizesMm['layer[0].length']).toBeGreaterThan(44);
    expect(second?.best).toBe(true);
    expect(found.start).toBe(first);
  });

  it('goes on from the design when that start is the worse one', async () => {
    const solve = async (design: Design) => {
      const isOwn = design.layers[0]?.shape.kind === 'rectangle' && design.layers[0].shape.lengthMm < 30;
      const response = onePortResponse({
        origin: 'prediction',
        method: 'a resistor',
        error: { origin: 'invented' },
        freqHz: sweepFrequencies(2.4e9, 3e9, 61),
        referenceOhm: 50,
        impedance: (freqHz) => ({ re: isOwn ? 200 : 400, im: (freqHz - 2.7e9) / 1e8 }),
      });
      return { response };
    };
    const one = far.replace(/\[free\][\s\S]*/, '[free]\nlayer.driven.length = { from = "15 mm", to = "80 mm" }\n');
    const found = await sizeDesign({ designText: one, solve, budget: 3 });
    expect(found.ok && found.best.solve).toBe(1);
    expect(found.ok && (found.steps[2]?.sizesMm['layer[0].length'] ?? 99)).toBeLessThan(30);
  });
});
