import { describe, expect, it } from 'vitest';
import { mustRead } from '../testing/must-read.ts';
import { newDesignText } from './new-design.ts';
import { readDesign } from './read-design.ts';

describe('a new design', () => {
  it('reads without findings and carries its name and date', () => {
    expect(mustRead(newDesignText())).toMatchObject({ name: 'New panel', date: undefined, layers: [{}, {}] });
    expect(mustRead(newDesignText({ name: 'Café mast 2', date: '2026-05-17' }))).toMatchObject({
      name: 'Café mast 2',
      date: '2026-05-17',
    });
  });

  it('takes a band and a stack, out of the spacers and screws that can be bought', () => {
    const patches = [
      { lengthMm: 25.91, widthMm: 21.6, gapMm: 2.9 },
      { lengthMm: 19.6, widthMm: 26.7, gapMm: 5.2 },
    ];
    const start = { lowHz: 5.15e9, highHz: 5.85e9, vswr: 1.5, fromEdgeMm: 3.27, patches };
    const design = mustRead(newDesignText({ start }));
    expect(design.band).toEqual({ lowHz: 5.15e9, highHz: 5.85e9 });
    expect(design.targets.vswr).toBe(1.5);
    expect(design.layers.map(({ shape }) => shape)).toMatchObject([
      { lengthMm: 25.9, widthMm: 21.6 },
      { lengthMm: 19.6, widthMm: 26.7 },
    ]);
    // 1 mm reflector, 3 + 0.5 + 5 + 0.5 mm of stack, nut of 2.4 mm: 12.4 mm at least.
    expect(design.layers.map(({ spacer }) => spacer?.kind === 'stock' && spacer.spacer.bodyMm)).toEqual([3, 5]);
    expect(design.hardware?.screw?.lengthMm).toBeGreaterThan(12.4);
    expect(design.free.map(({ path }) => path)).toHaveLength(7);
    // A stack too high for any screw stands on spacers with studs.
    const high = patches.map((patch) => ({ ...patch, gapMm: 35 }));
    const tall = mustRead(newDesignText({ start: { ...start, patches: high } }));
    expect(tall.layers.map(({ spacer }) => spacer?.kind === 'stock' && spacer.spacer.studMm)).toEqual([6, 6]);
  });

  it('cannot be made to say something else by its name', () => {
    const { design, findings } = readDesign(newDesignText({ name: 'a"\nformat = 2 #\u007f' }));
    expect(design).toBeUndefined();
    expect(findings.map((finding) => finding.path)).toEqual(['name']);
  });
});
