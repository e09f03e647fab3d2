import {
  type BoardPart,
  type Contour,
  circleContour,
  contains,
  distanceToContour,
  rectangleContour,
} from '@sheetwave/geometry';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { legendStrokes } from './legend.ts';

const centre = { x: 0, y: 0 };

/** A square board with a disc of bare copper and a fixing hole. */
function board(sideMm: number, discMm: number): BoardPart {
  const copper: Contour = circleContour(centre, discMm / 2);
  return {
    name: 'outer patch',
    outline: {
      outer: rectangleContour({ centre, widthMm: sideMm, heightMm: sideMm }),
      cutouts: [],
      holes: [{ purpose: 'fixing', centre, diameterMm: 3.2, plated: false }],
    },
    copper: { top: [{ purpose: 'patch', polarity: 'dark', contour: copper }], bottom: [] },
    maskOpenings: { top: [copper], bottom: [] },
    marks: [{ kind: 'text', purpose: 'feed-edge', at: { x: 0, y: -discMm / 2 + 1 }, text: 'feed edge', heightMm: 2 }],
  } as unknown as BoardPart;
}

test('ink stays on the board and off bare copper, whatever their sizes', () => {
  const size = fc.double({ min: 20, max: 90, noNaN: true });
  let drawn = 0;
  fc.assert(
    fc.property(size, fc.double({ min: 0.3, max: 0.99, noNaN: true }), (sideMm, share) => {
      const part = board(sideMm, sideMm * share);
      const disc = circleContour(centre, (sideMm * share) / 2);
      for (const point of legendStrokes(part, 'A').flat()) {
        drawn += 1;
        expect(contains(part.outline.outer, point)).toBe(true);
        expect(contains(disc, point)).toBe(false);
        expect(distanceToContour(disc, point)).toBeGreaterThan(0.3);
      }
    }),
    { seed: 20260517, numRuns: 40 },
  );
  expect(drawn).toBeGreaterThan(1000);
});

test('the arrow points down to the low edge when the feed is there', () => {
  const [shaft, head] = legendStrokes(board(50, 40), 'A');
  const tip = head?.[1];
  expect(shaft?.map(({ x }) => x)).toEqual([tip?.x, tip?.x]);
  expect(Math.min(...(shaft ?? []).map(({ y }) => y))).toBeCloseTo(tip?.y ?? 0, 12);
  expect(tip?.y).toBeLessThan(-20);
  expect(Math.abs(tip?.x ?? 9)).toBeLessThan(1);
});

test('nothing is printed where there is no room', () => {
  expect(legendStrokes(board(20, 19.9), 'A')).toEqual([]);
});
