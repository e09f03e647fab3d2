import { describe, expect, it } from 'vitest';
import { findStock, stock } from './catalogue.ts';
import { nearestDrill } from './drills.ts';
import { processes } from './processes.ts';
import type { AnyStock } from './types.ts';

const all: readonly AnyStock[] = Object.values(stock).flat();

describe('the stock catalogue', () => {
  it('has ids that are unique, plain and short enough to write', () => {
    const ids = all.map((item) => `${item.kind} ${item.id}`);
    expect(new Set(ids).size).toBe(ids.length);
    for (const item of all) expect(item.id).toMatch(/^[a-z0-9][a-z0-9.-]{1,39}$/);
  });

  it('says of every row where it comes from and how sure that is', () => {
    for (const item of [...all, ...Object.values(processes)]) {
      expect(item.source.length, item.id).toBeGreaterThan(8);
      expect(item.label.length, item.id).toBeGreaterThan(4);
      expect(['confirmed', 'memory', 'common practice', 'computed']).toContain(item.certainty);
    }
  });

  it('holds only finite, sensible numbers', () => {
    const numbers = (value: unknown): number[] =>
      typeof value === 'number'
        ? [value]
        : typeof value === 'object' && value !== null
          ? Object.values(value).flatMap(numbers)
          : [];
    for (const item of all) for (const value of numbers(item)) expect(Number.isFinite(value), item.id).toBe(true);
    for (const { boreMm, outerMm, id } of stock.tube) expect(boreMm > 0 && boreMm < outerMm, id).toBe(true);
    for (const { pinMm, dielectricMm, jacketMm, id } of stock.coax) {
      expect(pinMm < dielectricMm && dielectricMm < jacketMm, id).toBe(true);
    }
    for (const { innerMm, outerMm, id } of stock.washer) expect(innerMm < outerMm, id).toBe(true);
  });

  it('finds an item by its kind and id only', () => {
    expect(findStock('sheet', 'brass-0.5')).toMatchObject({ thicknessMm: 0.5 });
    expect(findStock('laminate', 'brass-0.5')).toBeUndefined();
    expect(findStock('sheet', 'toString')).toBeUndefined();
  });

  it('keeps the parts of a spacer consistent', () => {
    for (const item of stock.spacer) {
      const { ends, studMm, threadDepthMm, bodyMm, through } = item;
      expect(studMm > 0, item.id).toBe(ends.includes('male'));
      expect(threadDepthMm > 0, item.id).toBe(ends.includes('female'));
      expect(threadDepthMm, item.id).toBeLessThanOrEqual(bodyMm);
      expect(through && ends.includes('male'), item.id).toBe(false);
    }
  });
});

describe('nearestDrill', () => {
  it.each([
    [3.18, 3.2],
    [3.25, 3.25],
    [0.2, 1],
    [99, 13],
    [1.04, 1],
    [7.5, 8],
  ])('%d mm is drilled with %d mm', (wanted, drill) => {
    expect(nearestDrill(wanted)).toBe(drill);
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('throws for %d', (wanted) => {
    expect(() => nearestDrill(wanted)).toThrow(RangeError);
  });
});
