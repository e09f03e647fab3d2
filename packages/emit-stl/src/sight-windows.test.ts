import fc from 'fast-check';
import { expect, test } from 'vitest';
import { extentOf } from './flat-shapes.ts';
import { sightWindows } from './sight-windows.ts';

/** The windows of a blank of this size that touches its fences where a disc would: in the middle of each side. */
function windowsOf(sizeMm: number) {
  const half = sizeMm / 2;
  const contact = { from: -half / 8, to: half / 8 };
  const covered = { low: { x: -half, y: -half }, high: { x: half, y: half } };
  return sightWindows({ left: contact, low: contact }, covered, []).map(extentOf);
}

// Random designs found it: the windows of a disc of 16 mm met at one corner, and the jig was no solid.
test('the two windows of a small blank keep a web of 1.6 mm between them', () => {
  fc.assert(
    fc.property(fc.integer({ min: 80, max: 400 }), (tenths) => {
      const [left, below] = windowsOf(tenths / 10);
      if (left === undefined || below === undefined) return;
      const gap = Math.hypot(Math.max(0, below.low.x - left.high.x), Math.max(0, left.low.y - below.high.y));
      expect(gap).toBeGreaterThanOrEqual(1.6 - 1e-9);
    }),
    { seed: 71, numRuns: 300, examples: [[160]] },
  );
});

test('a large blank has both, each at its fence', () => {
  const [left, below] = windowsOf(60);
  expect([left?.low.x, below?.low.y]).toEqual([-30, -30]);
});
