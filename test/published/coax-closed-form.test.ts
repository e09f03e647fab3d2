/**
 * Impedance of a coaxial line from its diameters and velocity: Z0 = (eta0 / 2 pi) v ln(D/d), eta0 = 376.730 ohm (Pozar, Microwave
 * Engineering, table 2.1; computed). A stranded centre counts 0.94 to 0.97 of its diameter, so solid lines are held to 2 %, stranded to 8 %.
 * Mass per metre of the semi-rigid lines from their cross-section with handbook densities (computed).
 */
import { findStock, stock } from '@sheetwave/design';
import { expect, it } from 'vitest';

it.each(stock.coax.map((coax) => [coax.id, coax] as const))('%s has the impedance its diameters give', (id, coax) => {
  const ohm = (376.73 / (2 * Math.PI)) * coax.velocityFactor * Math.log(coax.dielectricMm / coax.pinMm);
  const tolerance = id.startsWith('semi-rigid') ? 0.02 : 0.1;
  expect(Math.abs(ohm / coax.impedanceOhm - 1)).toBeLessThan(tolerance);
});

it.each(['semi-rigid-141', 'semi-rigid-086'])('%s weighs what its copper, PTFE and steel weigh', (id) => {
  const coax = findStock('coax', id);
  if (coax === undefined) throw new Error(`no ${id}`);
  const ring = (outer: number, inner: number) => (Math.PI / 4) * (outer ** 2 - inner ** 2);
  const grams =
    ring(coax.jacketMm, coax.dielectricMm) * 8.93 +
    ring(coax.dielectricMm, coax.pinMm) * 2.2 +
    ring(coax.pinMm, 0) * 7.9;
  expect(Math.abs(coax.massGPerM / grams - 1)).toBeLessThan(0.04);
});

it('has the dimensions of 0.141 in and 0.086 in lines (MIL-DTL-17 types, memory)', () => {
  expect(findStock('coax', 'semi-rigid-141')).toMatchObject({ pinMm: 0.92, dielectricMm: 2.98, jacketMm: 3.58 });
  expect(findStock('coax', 'semi-rigid-086')).toMatchObject({ pinMm: 0.51, dielectricMm: 1.68, jacketMm: 2.18 });
});
