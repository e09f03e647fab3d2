import { describe, expect, it } from 'vitest';
import { wireFactor } from './wires.ts';

describe('the factor of a thin wire', () => {
  it('is 1 for the radius that a bare line of edges has on a lattice of squares', () => {
    // exp(-(Euler's constant + 1.5 ln 2)) = 0.1985 cells: the potential of a point source on the square lattice
    // (McCrea and Whipple 1940; exact).
    expect(wireFactor({ length: 1, width: 1, radius: 0.1985 })).toBeCloseTo(1, 3);
  });

  it('falls with the logarithm of the radius', () => {
    const inverse = (radius: number) => 1 / wireFactor({ length: 1, width: 1, radius });
    expect(inverse(1e-4) - inverse(1e-3)).toBeCloseTo(Math.LN10 / (Math.PI / 2), 9);
  });
});
