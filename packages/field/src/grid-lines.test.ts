import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gridLines, type Seed } from './grid-lines.ts';

const sizesOf = (lines: Float64Array) => [...lines].slice(1).map((line, n) => line - (lines[n] ?? Number.NaN));

const request = (seeds: readonly Seed[]) => ({ low: 0, high: 0.1, seeds, largest: 4e-3, growth: 1.3 });

describe('grid lines', () => {
  it('fill an empty axis with equal cells no larger than the largest', () => {
    const sizes = sizesOf(gridLines(request([])));
    expect(sizes).toHaveLength(25);
    for (const size of sizes) expect(size).toBeCloseTo(4e-3, 12);
  });

  it('pass through firm seeds, keep their cells and grow away from them', () => {
    const lines = gridLines(request([{ at: 0.05, size: 5e-4, line: 'firm' }]));
    expect([...lines]).toContain(0.05);
    const sizes = sizesOf(lines);
    const middle = [...lines].indexOf(0.05);
    expect(sizes[middle]).toBeLessThan(7e-4);
    expect(sizes[0]).toBeGreaterThan(3e-3);
    for (let n = 1; n < sizes.length; n++) {
      const [a, b] = [sizes[n - 1] ?? 0, sizes[n] ?? 0];
      expect(Math.max(a / b, b / a)).toBeLessThan(1.4);
    }
  });

  it('join soft lines that lie too close, and drop them beside firm ones', () => {
    const soft = [0.03, 0.0302].map((at): Seed => ({ at, size: 2e-3, line: 'soft' }));
    expect([...gridLines(request(soft))].filter((line) => Math.abs(line - 0.0301) < 1e-9)).toHaveLength(1);
    const firm: Seed = { at: 0.0303, size: 2e-3, line: 'firm' };
    const lines = [...gridLines(request([...soft, firm]))];
    expect(lines).toContain(0.0303);
    expect(lines.filter((line) => line > 0.0295 && line < 0.0303 - 1e-12)).toEqual([]);
  });

  it('leave room beside a seed that asks for it', () => {
    const wire: Seed = { at: 0.05, size: 4e-3, line: 'firm', clear: 3e-3 };
    const edge: Seed = { at: 0.0515, size: 1e-3, line: 'soft' };
    const lines = [...gridLines(request([wire, edge]))];
    const beside = lines.filter((line) => line !== 0.05).map((line) => Math.abs(line - 0.05));
    expect(Math.min(...beside)).toBeGreaterThan(1.5e-3 - 1e-12);
  });

  it('grow slowly around two fixed lines that lie close, and around a wire', () => {
    const close = [0.05, 0.0503].map((at): Seed => ({ at, size: 4e-3, line: 'firm' }));
    const wire: Seed = { at: 0.05, size: 4e-3, line: 'firm', clear: 3e-3 };
    const fine: Seed = { at: 0.03, until: 0.07, size: 6e-4, line: 'none' };
    for (const seeds of [close, [wire, fine]]) {
      const sizes = sizesOf(gridLines(request(seeds)));
      for (let n = 1; n < sizes.length; n++) {
        const [a, b] = [sizes[n - 1] ?? 0, sizes[n] ?? 0];
        expect(Math.max(a / b, b / a)).toBeLessThan(1.6);
      }
    }
  });

  it('rise, reach both ends and respect every size, whatever is asked', () => {
    const seed = fc.record({
      at: fc.double({ min: 0, max: 0.1, noNaN: true }),
      size: fc.double({ min: 3e-4, max: 5e-3, noNaN: true }),
      line: fc.constantFrom('firm', 'soft', 'none' as const),
    });
    fc.assert(
      fc.property(fc.array(seed, { maxLength: 8 }), (seeds) => {
        const lines = gridLines(request(seeds as Seed[]));
        expect(lines[0]).toBe(0);
        expect(lines.at(-1)).toBe(0.1);
        const sizes = sizesOf(lines);
        expect(Math.min(...sizes)).toBeGreaterThan(0);
        expect(Math.max(...sizes)).toBeLessThan(4e-3 * 1.1);
      }),
      { seed: 7 },
    );
  });
});
