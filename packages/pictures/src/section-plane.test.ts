import { circleContour, rectangleContour } from '@sheetwave/geometry';
import { expect, test } from 'vitest';
import { cutStretches, inPlane, lengthDirection } from './section-plane.ts';

const plate = rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 30, heightMm: 20 });
const hole = circleContour({ x: 0, y: -5 }, 1.5);
const here = { at: { x: 0, y: 0, z: 0 }, turnDeg: 0 };

test('a cut along the length leaves a gap as wide as the hole', () => {
  const plane = { origin: { x: 0, y: 0 }, along: lengthDirection(0), left: 100, right: 100 };
  const flat = cutStretches(plane, [plate, hole], here).flat();
  for (const [index, wanted] of [-10, -6.5, -3.5, 10].entries()) expect(flat[index]).toBeCloseTo(wanted, 3);
  expect(flat).toHaveLength(4);
});

test('a cut beside the middle of a hole meets its chord', () => {
  const plane = { origin: { x: 0.9, y: 0 }, along: lengthDirection(0), left: 100, right: 100 };
  // Half a chord 0.9 mm off the centre of a circle of 1.5 mm: 1.2 mm (3-4-5 triangle).
  expect(cutStretches(plane, [hole], here)[0]?.[1]).toBeCloseTo(-3.8, 2);
});

test('a turned part is cut where it lies, and the drawing ends at its sides', () => {
  const plane = { origin: { x: 0, y: 0 }, along: { x: 0, y: 1 }, left: 4, right: 100 };
  expect(cutStretches(plane, [plate], { ...here, turnDeg: 90 })).toEqual([[-4, 15]]);
});

test('along a horizontal patch the feed lies to the left', () => {
  const along = lengthDirection(-90);
  expect(along).toEqual({ x: 1, y: 0 });
  expect(inPlane({ origin: { x: 5, y: 5 }, along, left: 1, right: 1 }, { x: 2, y: 6 })).toEqual({ s: -3, off: 1 });
});
