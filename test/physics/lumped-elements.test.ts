/**
 * Lumped elements at the end of a short strip in a metal box. The strip's own reactance is that with a short in place of
 * the element; what is left is R, jwL or 1/(jwC) (definition).
 */
import type { LumpedElement } from '@sheetwave/field';
import { expect, it } from 'vitest';
import { mm, sceneOf, solveFast } from './solve-fast.ts';

const FREQ = 0.6e9;
const h = 1 * mm;

async function ohm(values: Partial<LumpedElement>) {
  const scene = sceneOf({
    sheets: [
      {
        name: 'strip',
        normal: 'z',
        at: h,
        thickness: 0,
        outline: {
          kind: 'polygon',
          points: [
            [0, -mm],
            [6 * mm, -mm],
            [6 * mm, mm],
            [0, mm],
          ],
        },
      },
    ],
    ports: [{ name: 'port', from: [mm, 0, 0], to: [mm, 0, h], resistance: 50 }],
    elements: [{ name: 'element', from: [5 * mm, 0, 0], to: [5 * mm, 0, h], ...values }],
    walls: {
      xLow: { kind: 'metal', at: -8 * mm },
      xHigh: { kind: 'metal', at: 14 * mm },
      yLow: { kind: 'metal', at: -9 * mm },
      yHigh: { kind: 'metal', at: 9 * mm },
      zLow: { kind: 'metal', at: 0 },
      zHigh: { kind: 'metal', at: 9 * mm },
    },
  });
  const band = { low: 0.4e9, high: 0.8e9 };
  const { z } = await solveFast(scene, { band, quality: 'draft', freqHz: [FREQ] });
  return z[0]?.[0] ?? { re: Number.NaN, im: Number.NaN };
}

it.each<[string, Partial<LumpedElement>, number, number]>([
  ['a resistor of 75 ohm', { resistance: 75 }, 75, 0],
  ['an inductor of 10 nH', { inductance: 10e-9 }, 0, 2 * Math.PI * FREQ * 10e-9],
  ['a capacitor of 5 pF', { capacitance: 5e-12 }, 0, -1 / (2 * Math.PI * FREQ * 5e-12)],
  ['a resistor and a capacitor', { resistance: 60, capacitance: 5e-12 }, 26.3, -29.8],
])('%s', async (_, values, re, im) => {
  const short = await ohm({ resistance: 1e-3 });
  const found = await ohm(values);
  // The strip beside it, about 0.3 pF, is parallel to element and short alike.
  const size = Math.hypot(re, im);
  expect(Math.abs(found.re - short.re - re) / size).toBeLessThan(0.12);
  expect(Math.abs(found.im - short.im - im) / size).toBeLessThan(0.12);
});
