import { describe, expect, it } from 'vitest';
import { crossingFactor, cutFaceFactor, edgeFlux, edgePotential, uprightFactor } from './edge-field.ts';

const half = { inner: 0.5, outer: 0.5 };

describe('the field at an edge of metal', () => {
  it('has the flux and the potential of the square root', () => {
    // w = sqrt(d + iz) at d = 0.5, z = 0.5: imaginary part 0.32180, counted on both sides.
    expect(edgeFlux('thin', 0.5, half)).toBeCloseTo(2 * 0.3218, 4);
    expect(edgePotential('thin', 4)).toBe(2);
  });

  it('is continuous where the line passes the corner', () => {
    expect(edgeFlux('corner', 1e-9, half)).toBeCloseTo(edgeFlux('corner', -1e-9, half), 4);
  });

  it('leaves an edge of the grid alone when the metal ends a third of a cell beyond its node', () => {
    const edge = { kind: 'thin', metal: -0.33, free: 0.67, length: 1, width: 1, half } as const;
    expect(Math.abs(crossingFactor(edge) - 1)).toBeLessThan(0.05);
    const face = { kind: 'thin', corners: [-0.33, 0.67, -0.33, 0.67], reach: 0.01, half } as const;
    expect(cutFaceFactor(face)).toBeCloseTo(crossingFactor(edge), 6);
  });

  it('gives a crossing edge more capacitance the shorter it is', () => {
    const factor = (free: number) => crossingFactor({ kind: 'thin', metal: free - 1, free, length: 1, width: 1, half });
    for (const free of [0.4, 0.6, 0.8, 1]) expect(factor(free)).toBeGreaterThan(factor(free + 0.1));
  });

  it('at a flat wall is the free part of the cell', () => {
    const edge = { kind: 'wall', metal: -0.5, free: 0.5, length: 1, width: 1, half } as const;
    expect(crossingFactor(edge)).toBeCloseTo(2, 6);
  });

  it('fades away from the edge', () => {
    const far = { kind: 'thin', height: 1, width: 1 } as const;
    expect(uprightFactor({ ...far, distance: -6, onMetal: true })).toBeCloseTo(1, 1);
    expect(uprightFactor({ ...far, distance: -0.35, onMetal: true })).toBeLessThan(0.92);
  });
});
