/**
 * Probes of different thickness under one patch over air, 23 x 25 mm, 3 mm up. The radius acts on the current of the probe: a
 * probe of the radius a between two plates has the reactance eta k h/(2 pi) ln(2/(1.781 k a)) (K. R. Carver and J. W. Mink, IEEE
 * Trans. AP-29 (1981) 2; memory). What the modes of the patch add to it does not depend on the radius, so two radii differ by
 * eta k h/(2 pi) ln(a1/a2).
 */
import type { Port, Wire } from '@sheetwave/field';
import { expect, it } from 'vitest';
import { mm, off, sceneOf, solveFast } from './solve-fast.ts';

const HEIGHT = 3 * mm;
const BAND = { low: 3.5e9, high: 6.6e9 };
const ETA = 376.73;
const waveNumber = (freqHz: number) => (2 * Math.PI * freqHz) / 299_792_458;

/** Resistance at its peak, the reactance there, and where that is. The port takes this much of the height; a wire goes on. */
async function fed({ radius, port: foot = HEIGHT }: { readonly radius: number; readonly port?: number }) {
  const x = 6 * mm;
  const [a, b] = [11.5 * mm, 12.5 * mm];
  const outline = {
    kind: 'polygon',
    points: [
      [-a, -b],
      [a, -b],
      [a, b],
      [-a, b],
    ],
  } as const;
  const port: Port = { name: 'probe', from: [x, 0, 0], to: [x, 0, foot], resistance: 50, radius };
  const wire: Wire = { name: 'pin', from: [x, 0, foot], to: [x, 0, HEIGHT], radius };
  const scene = sceneOf({
    sheets: [{ name: 'patch', normal: 'z', at: HEIGHT, thickness: 0, outline }],
    ports: [port],
    wires: foot < HEIGHT ? [wire] : [],
    walls: { zLow: { kind: 'metal', at: 0 } },
  });
  const freqHz = Array.from({ length: 201 }, (_, n) => 4.9e9 + n * 4e6);
  const { z } = await solveFast(scene, { band: BAND, freqHz });
  const at = z.reduce((best, _, n) => ((z[n]?.[0]?.re ?? 0) > (z[best]?.[0]?.re ?? 0) ? n : best), 0);
  return { ohm: z[at]?.[0]?.re ?? 0, reactance: z[at]?.[0]?.im ?? 0, freqHz: freqHz[at] ?? 0 };
}

it('a thinner probe has the reactance of the field between the two radii more, and leaves the resonance', async () => {
  const [thin, thick] = [await fed({ radius: 0.1 * mm }), await fed({ radius: 0.5 * mm })];
  const expected = ((ETA * waveNumber(thick.freqHz) * HEIGHT) / (2 * Math.PI)) * Math.log(5);
  expect(off(thin.reactance - thick.reactance, expected)).toBeLessThan(0.05);
  expect(off(thin.freqHz, thick.freqHz)).toBeLessThan(0.005);
  expect(off(thin.ohm, thick.ohm)).toBeLessThan(0.03);
});

it('a port at the foot of a pin sees more resistance than one over the whole height, by (tan kh/kh)^2', async () => {
  // On the pin the current goes as cos k(h - z): at the foot it is cos kh, on average sin kh/kh, and the same power flows.
  const [whole, foot] = [await fed({ radius: 0.5 * mm }), await fed({ radius: 0.5 * mm, port: mm })];
  const kh = waveNumber(whole.freqHz) * HEIGHT;
  expect(off(foot.ohm / whole.ohm, (Math.tan(kh) / kh) ** 2)).toBeLessThan(0.03);
});
