import { describe, expect, it } from 'vitest';
import { gaussLegendre, integrate } from './quadrature.ts';
import { findCrossing, slopeAt } from './solve.ts';

describe('Gauss-Legendre', () => {
  it('has the nodes and weights of the table for three points (Abramowitz & Stegun 25.4)', () => {
    const { nodes, weights } = gaussLegendre(3);
    expect(nodes[0]).toBeCloseTo(0.774596669241483, 14);
    expect(nodes[1]).toBeCloseTo(0, 14);
    expect(weights[0]).toBeCloseTo(5 / 9, 14);
    expect(weights[1]).toBeCloseTo(8 / 9, 14);
  });

  it('is exact for a polynomial of degree 2n - 1', () => {
    expect(integrate((x) => x ** 9 + x ** 8, { from: 0, to: 2, nodes: 5 })).toBeCloseTo(2 ** 10 / 10 + 2 ** 9 / 9, 10);
  });

  it('integrates what swings', () => {
    expect(integrate((x) => Math.cos(25 * x), { from: 0, to: 1 })).toBeCloseTo(Math.sin(25) / 25, 12);
  });
});

describe('crossings and slopes', () => {
  it('finds a root of a falling and of a rising function', () => {
    expect(findCrossing((x) => x * x - 2, { low: 0, high: 2 })).toBeCloseTo(Math.SQRT2, 15);
    expect(findCrossing((x) => 2 - x * x, { low: 0, high: 2 })).toBeCloseTo(Math.SQRT2, 15);
  });

  it('refuses a bracket without a crossing', () => {
    expect(() => findCrossing((x) => x * x + 1, { low: 0, high: 2 })).toThrow(RangeError);
  });

  it('takes a slope', () => {
    expect(slopeAt(Math.exp, 1, 1e-5)).toBeCloseTo(Math.E, 9);
  });
});
