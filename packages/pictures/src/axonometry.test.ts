import { boxCorners } from '@sheetwave/drawings';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { paintedPolygons } from '../testing/painted-polygons.ts';
import { drawPrism, heightDrawnAt, project } from './axonometry.ts';
import { disc } from './hardware-solids.ts';
import { TONES } from './palette.ts';

const point = fc.record({
  x: fc.integer({ min: -50, max: 50 }),
  y: fc.integer({ min: -50, max: 50 }),
  z: fc.integer({ min: -50, max: 50 }),
});

test('parallels stay parallel: the middle of a line is drawn in the middle', () => {
  fc.assert(
    fc.property(point, point, (a, b) => {
      const middle = project({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2, z: (a.z + b.z) / 2 });
      expect(middle.x).toBeCloseTo((project(a).x + project(b).x) / 2, 9);
      expect(middle.y).toBeCloseTo((project(a).y + project(b).y) / 2, 9);
    }),
  );
});

test('a height found for a place of the page is drawn there', () => {
  fc.assert(
    fc.property(point, fc.integer({ min: -50, max: 50 }), (at, pageY) => {
      expect(project({ ...at, z: heightDrawnAt(pageY, at) }).y).toBeCloseTo(pageY, 9);
    }),
  );
});

test.each([
  ['a box', boxCorners({ minX: -5, minY: -5, maxX: 5, maxY: 5 }), 2],
  ['a round body of 40 sides', disc({ x: 0, y: 0 }, 10), 20],
])('of %s the sides toward the eye are painted, no others', (_, outer, sides) => {
  const painted = paintedPolygons((pen) =>
    drawPrism({ pen, scale: 1 }, { outer, holes: [disc({ x: 0, y: 0 }, 3)], from: 0, to: 4, tones: TONES.steel }),
  );
  expect(painted.filter((style) => style.width === 0.12)).toHaveLength(sides);
});
