import type { RodPart } from '@sheetwave/geometry';
import { expect, test } from 'vitest';
import { bendPlan } from './bend-plan.ts';
import type { Print } from './print.ts';

const print = { springBackDeg: 3 } as Print;

/** A U of 2 mm rod, legs of 10 mm and a bar of 50 mm between corners, inside radius 3 mm. */
const rod = {
  form: 'rod',
  rod: { diameterMm: 2 },
  bendRadiusMm: 3,
  // Straight: 10 − 4; arc: 4 · π/2; straight: 50 − 8 (computed).
  bends: [
    { atMm: 6 + Math.PI, angleDeg: 90, twistDeg: 0 },
    { atMm: 6 + 2 * Math.PI + 42 + Math.PI, angleDeg: 90, twistDeg: 0 },
  ],
  developedLengthMm: 12 + 4 * Math.PI + 42,
} as unknown as RodPart;

test('marks where each bend begins, seen from the longer straight side', () => {
  const [first, second] = bendPlan(rod, print).marks;
  expect(first).toMatchObject({ order: 1, held: 'far-side' });
  expect(first?.atMm).toBeCloseTo(6 + 2 * Math.PI, 9);
  expect(first?.leverMm).toBeCloseTo(6, 9);
  expect(second).toMatchObject({ order: 2, held: 'stop-side' });
  expect(second?.atMm).toBeCloseTo(6 + 2 * Math.PI + 42, 9);
  expect(second?.leverMm).toBeCloseTo(6, 9);
});

test('bends by the spring-back more, around a mandrel smaller by as much of the neutral line', () => {
  const [angle] = bendPlan(rod, print).angles;
  expect(angle).toMatchObject({ angleDeg: 90, bendToDeg: 93 });
  // K = (2R/t + 1) / (2r/t + 1) = bent angle / angle left: (2·3/2 + 1) / (2r/2 + 1) = 93/90, r = 4 · 90/93 − 1 (computed).
  expect(angle?.mandrelRadiusMm).toBeCloseTo((4 * 90) / 93 - 1, 9);
});

test('without spring-back the mandrel has the radius of the bend', () => {
  expect(bendPlan(rod, { ...print, springBackDeg: 0 }).angles[0]?.mandrelRadiusMm).toBeCloseTo(3, 9);
});
