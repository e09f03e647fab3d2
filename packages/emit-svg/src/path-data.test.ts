import { type Contour, circleContour, roundedRectangleContour } from '@sheetwave/geometry';
import { expect, test } from 'vitest';
import { pathData } from './path-data.ts';

const flip = ({ x, y }: { x: number; y: number }) => ({ x, y: -y });

test('counter-clockwise arcs have sweep 0 on a page whose y runs down (SVG 1.1 section 8.3.8)', () => {
  const contour = roundedRectangleContour({ centre: { x: 0, y: 0 }, widthMm: 10, heightMm: 6, radiusMm: 1 });
  expect(pathData([contour], flip)).toBe(
    'M-4 3L4 3A1 1 0 0 0 5 2L5 -2A1 1 0 0 0 4 -3L-4 -3A1 1 0 0 0 -5 -2L-5 2A1 1 0 0 0 -4 3Z',
  );
});

test('an arc of more than half a turn has the large flag, a clockwise one sweep 1', () => {
  const notched = (sense: 'ccw' | 'cw'): Contour => ({
    kind: 'path',
    start: { x: 0, y: 2 },
    segments: [
      { kind: 'arc', to: { x: 2, y: 0 }, centre: { x: 0, y: 0 }, sense },
      { kind: 'line', to: { x: 0, y: 2 } },
    ],
  });
  expect(pathData([notched('ccw')], flip)).toBe('M0 -2A2 2 0 1 0 2 0L0 -2Z');
  expect(pathData([notched('cw')], flip)).toBe('M0 -2A2 2 0 0 1 2 0L0 -2Z');
});

test('a circle becomes two halves, because one arc cannot end where it starts', () => {
  expect(pathData([circleContour({ x: 1, y: 1 }, 0.5)], flip)).toBe(
    'M1.5 -1A0.5 0.5 0 0 0 0.5 -1A0.5 0.5 0 0 0 1.5 -1Z',
  );
});
