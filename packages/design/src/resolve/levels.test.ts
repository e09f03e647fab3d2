import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Lattice } from '../design.ts';
import { fillJoins } from './levels.ts';

function lattice(rows: number, columns: number, orientation: Lattice['orientation'] = 'vertical'): Lattice {
  return { rows, columns, rowPitchMm: 40, columnPitchMm: 40, orientation };
}
const blank = (count: number) => Array.from({ length: count }, () => undefined);

describe('fillJoins', () => {
  it.each([
    [lattice(1, 2), ['columns']],
    [lattice(2, 1), ['rows']],
    [lattice(2, 2), ['rows', 'columns']],
    [lattice(2, 2, 'horizontal'), ['columns', 'rows']],
    [lattice(4, 4), ['rows', 'columns', 'rows', 'columns']],
    [lattice(1, 4), ['columns', 'columns']],
    [lattice(8, 2), ['rows', 'rows', 'rows', 'columns']],
    [lattice(1, 1), []],
  ] as const)('%j by default joins %j from the coax outward', (of, joins) => {
    expect(fillJoins(blank(joins.length), of)).toEqual(joins);
  });

  it('keeps what is written and fills the rest', () => {
    expect(fillJoins(['columns', undefined], lattice(2, 2))).toEqual(['columns', 'rows']);
    expect(fillJoins([undefined, 'rows'], lattice(2, 2))).toEqual(['columns', 'rows']);
  });

  it('gives nothing when an axis is joined too often', () => {
    expect(fillJoins(['rows', 'rows'], lattice(2, 2))).toBeUndefined();
    expect(fillJoins(['rows'], lattice(1, 2))).toBeUndefined();
  });

  it('joins each axis exactly as often as it can be halved, whatever is written within that', () => {
    const exponent = fc.nat(5);
    const choice = fc.array(fc.boolean(), { minLength: 10, maxLength: 10 });
    const orientation = fc.constantFrom<Lattice['orientation']>('vertical', 'horizontal');
    fc.assert(
      fc.property(exponent, exponent, choice, orientation, (r, c, keep, way) => {
        const of = lattice(2 ** r, 2 ** c, way);
        const full = fillJoins(blank(r + c), of);
        const partly = fillJoins(full?.map((axis, i) => (keep[i] ? axis : undefined)) ?? [], of);
        expect(partly?.filter((axis) => axis === 'rows')).toHaveLength(r);
        expect(partly?.filter((axis) => axis === 'columns')).toHaveLength(c);
      }),
      { seed: 41, numRuns: 500 },
    );
  });
});
