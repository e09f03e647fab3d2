/**
 * The patch of C. A. Balanis, Antenna Theory, 4th ed. (2016), Examples 14.1 to 14.3 (`confirmed`): 11.86 x 9.06 mm on 1.588 mm
 * of permittivity 2.2, designed for 10 GHz by closed forms; patterns of the prototype were measured at 9.8 GHz.
 */
import { expect, it } from 'vitest';
import { mm, sceneOf, solveFast } from './solve-fast.ts';

const ENDLESS = Number.POSITIVE_INFINITY;
const [WIDTH, LENGTH, HEIGHT] = [11.86 * mm, 9.06 * mm, 1.588 * mm];

it('resonates below its design and not far from where its prototype was measured, with the directivity of the handbook', async () => {
  const [a, b] = [LENGTH / 2, WIDTH / 2];
  const points = [[-a, -b] as const, [a, -b] as const, [a, b] as const, [-a, b] as const];
  // The inset of 3.126 mm from the edge is where Example 14.2 puts 50 ohm.
  const x = LENGTH / 2 - 3.126 * mm;
  const shape = { kind: 'box', low: [-ENDLESS, -ENDLESS, 0], high: [ENDLESS, ENDLESS, HEIGHT] } as const;
  const scene = sceneOf({
    sheets: [{ name: 'patch', normal: 'z', at: HEIGHT, thickness: 0, outline: { kind: 'polygon', points } }],
    solids: [{ name: 'slab', shape, permittivity: 2.2 }],
    ports: [{ name: 'probe', from: [x, 0, 0], to: [x, 0, HEIGHT], resistance: 50, radius: 0.3 * mm }],
    walls: { zLow: { kind: 'metal', at: 0 } },
  });
  const band = { low: 8e9, high: 12e9 };
  const { runs, farFields } = await solveFast(scene, { band, quality: 'draft', farFieldHz: [9.8e9] });
  const pole = runs[0]?.resonances[0]?.freqHz ?? Number.NaN;
  // The pole of a wide patch on a board as thick as this lies below the peak of its resistance.
  expect(pole).toBeGreaterThan(9.4e9);
  expect(pole).toBeLessThan(9.8e9);
  const [far] = farFields;
  if (!far) throw new RangeError('No far field was computed.');
  // Example 14.3: 6.775 dBi from the array factor of two slots, 7.35 dBi with their mutual conductance.
  expect(far.pattern.directivityDbi).toBeGreaterThan(6.775);
  expect(far.pattern.directivityDbi).toBeLessThan(7.35 + 0.1);
  // The closed surface also takes what the slab leads off as a surface wave; nothing is lost.
  expect(far.balance.radiated).toBeGreaterThan(0.97);
  expect(far.balance.radiated).toBeLessThan(1.01);
});
