import fc from 'fast-check';
import { expect, test } from 'vitest';
import { contains, distanceToContour } from './contour-measure.ts';
import { circleContour, rectangleContour, roundedRectangleContour } from './contours.ts';
import { type LeadIn, leadIns } from './lead-in.ts';
import type { Outline } from './outline.ts';
import { toolPath } from './tool-path.ts';
import { reverseContour } from './transform.ts';

const laser = { kerfMm: 0.2, compensateKerf: true, insideCorners: 'round', smallestRadiusMm: 0.2 } as const;
const centre = { x: 0, y: 0 };

/** Along the quarter turn, end left out. */
const along = (lead: LeadIn) =>
  Array.from({ length: 40 }, (_, i) => {
    const turn = ((lead.sense === 'ccw' ? 1 : -1) * i * Math.PI) / 80;
    const [x, y] = [lead.from.x - lead.centre.x, lead.from.y - lead.centre.y];
    return {
      x: lead.centre.x + x * Math.cos(turn) - y * Math.sin(turn),
      y: lead.centre.y + x * Math.sin(turn) + y * Math.cos(turn),
    };
  });

test('each contour has one: outside the part, inside its openings, ending on its own line and crossing none', () => {
  const sizes = fc.record({
    w: fc.double({ min: 20, max: 80, noNaN: true }),
    h: fc.double({ min: 20, max: 80, noNaN: true }),
    hole: fc.double({ min: 3, max: 6, noNaN: true }),
    slot: fc.double({ min: 3, max: 8, noNaN: true }),
    lead: fc.double({ min: 0.4, max: 2.5, noNaN: true }),
  });
  fc.assert(
    fc.property(sizes, ({ w, h, hole, slot, lead }) => {
      const outline: Outline = {
        outer: roundedRectangleContour({ centre, widthMm: w, heightMm: h, radiusMm: 2 }),
        cutouts: [reverseContour(rectangleContour({ centre: { x: w / 4, y: 0 }, widthMm: 3, heightMm: slot }))],
        holes: [{ purpose: 'fixing', centre: { x: -w / 4, y: 0 }, diameterMm: hole, plated: false }],
      };
      const path = toolPath(outline, laser);
      const { leads, outside, without } = leadIns(path, lead);
      expect([leads.length, without]).toEqual([3, 0]);
      expect(outside).toBe(leads[2]);
      const contours = [...path.holes, ...path.cutouts, path.outer];
      for (const [i, one] of leads.entries()) {
        const own = contours[i];
        if (own === undefined) throw new Error('more run-ins than contours');
        expect(distanceToContour(own, one.to)).toBeLessThan(1e-6);
        for (const point of along(one)) {
          expect(contains(own, point)).toBe(own !== path.outer);
          for (const contour of contours) expect(distanceToContour(contour, point)).toBeGreaterThan(0);
        }
      }
    }),
    { seed: 20260520, numRuns: 80 },
  );
});

test('a quarter circle of that radius that runs into the contour without a kink', () => {
  const path = { outer: rectangleContour({ centre, widthMm: 40, heightMm: 20 }), cutouts: [], holes: [] };
  // The long side below runs to the right; the waste is below it. Computed.
  expect(leadIns(path, 2).leads).toEqual([
    { from: { x: -2, y: -12 }, to: { x: 0, y: -10 }, centre: { x: 0, y: -12 }, sense: 'cw' },
  ]);
});

test('in a small hole it is shortened, and where even a quarter has no room there is none', () => {
  const outer = rectangleContour({ centre, widthMm: 40, heightMm: 20 });
  const withHole = (radius: number) => ({ outer, cutouts: [], holes: [circleContour(centre, radius)] });
  const [short] = leadIns(withHole(1), 2).leads;
  expect(Math.hypot((short?.to.x ?? 0) - (short?.centre.x ?? 0), 0)).toBeCloseTo(0.5, 9);
  expect(leadIns(withHole(0.3), 3)).toMatchObject({ leads: [{ sense: 'cw' }], without: 1 });
  expect(() => leadIns(withHole(1), 0)).toThrow(/0 mm/);
});
