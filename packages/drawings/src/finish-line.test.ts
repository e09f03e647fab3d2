import { bounds, circleContour, type PlatePart, rectangleContour } from '@sheetwave/geometry';
import { describe, expect, test } from 'vitest';
import { edgeWords, finishLine } from './finish-line.ts';

const centre = { x: 0, y: 0 };
const part = (lineWidthMm: number, slotMm = 6): PlatePart =>
  ({
    outline: {
      outer: rectangleContour({ centre, widthMm: 40, heightMm: 30 }),
      cutouts: [circleContour({ x: 5, y: 0 }, slotMm / 2)],
      holes: [],
    },
    process: { lineWidthMm },
  }) as unknown as PlatePart;

describe('the line to file to', () => {
  test('without a pen is a hairline on the edge itself', () => {
    const line = finishLine(part(0));
    expect(line).toMatchObject({ edge: 'middle', outer: part(0).outline.outer });
    expect(edgeWords(line)).toMatch(/middle/);
  });

  test('of a pen lies half its width outside the part and inside its openings, so that its inner side is the edge', () => {
    // 0.8 mm pen: the middle of the line is 0.4 mm from 40 x 30 mm and from a circle of 3 mm radius. Computed.
    const line = finishLine(part(0.8));
    expect(bounds(line.outer)).toEqual({ minX: -20.4, minY: -15.4, maxX: 20.4, maxY: 15.4 });
    expect(line.cutouts).toEqual([circleContour({ x: 5, y: 0 }, 2.6)]);
    expect([line.widthMm, line.edge]).toEqual([0.8, 'inner']);
    expect(edgeWords(line)).toMatch(/0\.8 mm: the finished edge is its side toward the metal/);
  });

  test('in an opening narrower than the pen is the hairline again', () => {
    expect(finishLine(part(0.8, 0.7)).edge).toBe('middle');
  });
});
