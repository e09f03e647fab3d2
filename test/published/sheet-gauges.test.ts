/**
 * Thickness of gauged sheet, mm, typed from handbook tables: American Wire Gauge (ASTM B258, in inches there; confirmed by its closed form),
 * Standard Wire Gauge and roofing copper by weight (memory).
 */
import { findStock } from '@sheetwave/design';
import { expect, it } from 'vitest';

it.each([
  ['brass-14awg', 0.0641],
  ['brass-16awg', 0.0508],
  ['brass-18awg', 0.0403],
  ['brass-20awg', 0.032],
  ['brass-22awg', 0.0253],
  ['brass-24awg', 0.0201],
  ['brass-26awg', 0.0159],
  ['brass-28awg', 0.0126],
])("%s is %d in thick, within one unit of the table's last figure", (id, inches) => {
  expect(Math.abs((findStock('sheet', id)?.thicknessMm ?? 0) / 25.4 - inches)).toBeLessThan(0.0001);
});

it.each([
  ['brass-16swg', 1.626],
  ['brass-18swg', 1.219],
  ['brass-20swg', 0.914],
  ['brass-22swg', 0.711],
  ['brass-24swg', 0.559],
  ['brass-26swg', 0.457],
  ['copper-16oz', 0.55],
  ['copper-20oz', 0.69],
  ['copper-24oz', 0.82],
])('%s is %d mm thick', (id, mm) => {
  expect(findStock('sheet', id)?.thicknessMm).toBe(mm);
});
