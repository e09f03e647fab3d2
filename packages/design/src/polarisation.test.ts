import { expect, test } from 'vitest';
import type { Hand } from './design.ts';
import { cutForHand, handOfPatch } from './polarisation.ts';

/** Square of side 1 about the origin with triangles of 0.1 cut off two opposite corners. */
const CUT = 0.1;
const inside = (which: 'rising' | 'falling', x: number, y: number): boolean =>
  Math.abs(which === 'rising' ? x + y : x - y) < 1 - CUT;

/**
 * Wave number squared of the mode along a diagonal of the cut square, by Rayleigh's quotient of the whole square's mode over what is
 * left (any text on vibration: exact to first order in the cut). Open edges: no condition on the field. `sign` 1 is the rising diagonal.
 */
function waveNumberSquared(which: 'rising' | 'falling', sign: 1 | -1): number {
  const n = 400;
  let [slope, field] = [0, 0];
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const [x, y] = [(i + 0.5) / n - 0.5, (j + 0.5) / n - 0.5];
      if (!inside(which, x, y)) continue;
      field += (Math.sin(Math.PI * x) + sign * Math.sin(Math.PI * y)) ** 2;
      slope += Math.PI ** 2 * (Math.cos(Math.PI * x) ** 2 + Math.cos(Math.PI * y) ** 2);
    }
  }
  return slope / field;
}

/**
 * The hand of two resonators driven in phase, from their field over one period: amplitude 1 / (1 + jQ (f/f0 - f0/f)) with the engineers'
 * e^(jwt). Counter-clockwise seen from in front, where the wave comes toward the observer, is right-hand (IEEE Std 145, memory).
 */
function handByTwoModes(which: 'rising' | 'falling'): Hand {
  const [rising, falling] = [Math.sqrt(waveNumberSquared(which, 1)), Math.sqrt(waveNumberSquared(which, -1))];
  const middle = Math.sqrt(rising * falling);
  const quality = middle / Math.abs(rising - falling);
  const phase = (own: number): number => -Math.atan(quality * (middle / own - own / middle));
  const field = (time: number) => {
    const [d1, d2] = [Math.cos(time + phase(rising)), Math.cos(time + phase(falling))];
    return { x: d1 - d2, y: d1 + d2 };
  };
  const turned = Array.from({ length: 16 }, (_, i) => {
    const [a, b] = [field((i * Math.PI) / 8), field(((i + 1) * Math.PI) / 8)];
    return Math.atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y);
  }).reduce((sum, angle) => sum + angle, 0);
  expect(Math.abs(turned)).toBeCloseTo(2 * Math.PI, 6);
  return turned > 0 ? 'right-hand' : 'left-hand';
}

test.each(['rising', 'falling'] as const)(
  '%s corners cut give the hand that two driven modes give (computed)',
  (which) => {
    const corners = { kind: 'cut', which, sizeMm: 3 } as const;
    const hand = handOfPatch({ kind: 'rectangle', lengthMm: 20, widthMm: 20, corners, slot: undefined });
    expect(hand).toBe(handByTwoModes(which));
    expect(hand && cutForHand(hand)).toBe(which);
  },
);

test('four cut corners, round ones and other shapes favour no hand', () => {
  const square = { kind: 'rectangle', lengthMm: 20, widthMm: 20, slot: undefined } as const;
  expect(handOfPatch({ ...square, corners: { kind: 'cut', which: 'all', sizeMm: 3 } })).toBeUndefined();
  expect(handOfPatch({ ...square, corners: { kind: 'round', radiusMm: 3 } })).toBeUndefined();
  expect(handOfPatch({ kind: 'circle', diameterMm: 20 })).toBeUndefined();
});
