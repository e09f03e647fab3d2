import { findStock, type Process, processes } from '@sheetwave/design';
import { describe, expect, test } from 'vitest';
import type { Assembly } from './assembly.ts';
import { bounds, outlineArea } from './contour-measure.ts';
import { kerfCoupon, kerfCoupons, kerfFromReadings } from './kerf-coupon.ts';
import { offsetContour } from './offset.ts';
import { assemblyOf, rodArray } from './testing/designs.ts';

const sheet = findStock('sheet', 'brass-0.5');
if (sheet === undefined) throw new Error('no sheet');

const width = (box: ReturnType<typeof bounds>): number => box.maxX - box.minX;

describe('the arithmetic', () => {
  test('worked by hand: a 10 mm pair reads 10.21 and 9.79 mm, so each side of a line lost 0.105 mm', () => {
    // slot 10 + k = 10.21, tongue 10 − k = 9.79: k = 0.21 mm; (10.21 − 9.79) / 2 = 0.21. Computed.
    expect(kerfFromReadings({ slotMm: 10.21, tongueMm: 9.79 })).toBeCloseTo(0.21, 12);
    expect(kerfFromReadings({ slotMm: 20.9, tongueMm: 19.1 })).toBeCloseTo(0.9, 12);
  });

  test('readings that cannot be right are refused', () => {
    expect(() => kerfFromReadings({ slotMm: 9.9, tongueMm: 10 })).toThrow(/narrower/);
    expect(() => kerfFromReadings({ slotMm: Number.NaN, tongueMm: 10 })).toThrow(/readings/);
  });

  test('a coupon that loses half a kerf at every edge reads back that kerf', () => {
    const { plate, tongue, widthsMm } = kerfCoupon(sheet, processes.laser);
    for (const kerf of [0.1, 0.27, 1.2]) {
      // Cutting on the line removes the metal within half a kerf of it: openings grow, outsides shrink.
      const slot = plate.cutouts[1];
      if (slot === undefined) throw new Error('no slot');
      const slotMm = width(bounds(offsetContour(slot, kerf / 2)));
      const shrunk = bounds(offsetContour(tongue.outer, -kerf / 2));
      const tongueMm = shrunk.maxY - shrunk.minY - ((widthsMm[2] ?? 0) - (widthsMm[1] ?? 0));
      expect(kerfFromReadings({ slotMm, tongueMm })).toBeCloseTo(kerf, 9);
    }
  });
});

describe('the test piece', () => {
  test('has slots and steps of 5, 10 and 20 mm', () => {
    const { plate, tongue, widthsMm } = kerfCoupon(sheet, processes.laser);
    expect(widthsMm).toEqual([5, 10, 20]);
    expect(plate.cutouts.map((slot) => width(bounds(slot)))).toEqual([5, 10, 20]);
    // 55 x 25 mm less slots of 15 mm; steps of 15 mm: computed.
    expect(outlineArea(plate)).toBeCloseTo(55 * 25 - 15 * 35, 9);
    expect(outlineArea(tongue)).toBeCloseTo(15 * 35, 9);
  });

  test('grows with a cut that would eat it', () => {
    const wide: Process = { ...processes.waterjet, kerfMm: 6 };
    expect(kerfCoupon(sheet, wide).widthsMm).toEqual([15, 30, 60]);
  });

  test('there is one for each sheet and process with a kerf', () => {
    const assembly = assemblyOf(rodArray);
    expect(kerfCoupons(assembly)).toEqual([]);
    const parts = assembly.parts.map((part) => (part.form === 'plate' ? { ...part, process: processes.laser } : part));
    const cut: Assembly = { ...assembly, parts };
    expect(kerfCoupons(cut).map((coupon) => [coupon.sheet.id, coupon.process.id])).toEqual([
      ['brass-1.0', 'laser'],
      ['brass-0.5', 'laser'],
    ]);
  });
});
