import type { EtchFilm } from '@sheetwave/design';
import { type Assembly, type BoardPart, boundsOfPoints, circleContour, rectangleContour } from '@sheetwave/geometry';
import { describe, expect, test } from 'vitest';
import { type Drawn, recordingPen } from '../testing/recording-pen.ts';
import { etchFilms } from './etch-film.ts';

const DEFAULT: EtchFilm = { film: 'positive', mirror: true, fill: 'solid', measuredMm: { x: 100, y: 100 } };
/** 60 by 40 mm, with a patch right of the middle on top, and a plane with an opening left of the middle below. */
const board = {
  form: 'board',
  role: 'reflector',
  id: 'reflector',
  name: 'reflector',
  quantity: 1,
  laminate: { label: 'a laminate', thicknessMm: 0.8 },
  outline: { outer: rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 60, heightMm: 40 }), cutouts: [], holes: [] },
  copper: {
    top: [
      {
        purpose: 'patch',
        polarity: 'dark',
        contour: rectangleContour({ centre: { x: 12, y: 5 }, widthMm: 20, heightMm: 16 }),
      },
    ],
    bottom: [
      {
        purpose: 'plane',
        polarity: 'dark',
        contour: rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 58, heightMm: 38 }),
      },
      { purpose: 'clearance', polarity: 'clear', contour: circleContour({ x: -10, y: 0 }, 3) },
    ],
  },
  maskOpenings: { top: [], bottom: [] },
  marks: [],
  process: { id: 'etch', undercutMm: 0.05 },
} as unknown as BoardPart;

function drawn(film: Partial<EtchFilm>, side: 'top' | 'bottom', part: BoardPart = board): readonly Drawn[] {
  const design = {
    name: 'Heron Lock',
    revision: 'A',
    etchFilm: { ...DEFAULT, ...film },
    lattice: { orientation: 'vertical' },
  };
  const assembly = { design, parts: [part] } as unknown as Assembly;
  const found = etchFilms(assembly).find((one) => one.side === side);
  const list: Drawn[] = [];
  found?.drawing.draw(recordingPen(list));
  return list;
}

const artwork = (list: readonly Drawn[]) => list.filter(({ group }) => group === 'artwork');
const boxOf = (one: Drawn | undefined) => boundsOfPoints(one?.rings.flat() ?? []);

describe('what is black and where', () => {
  test('the top is mirrored left to right, and grown by the undercut', () => {
    const [patch] = artwork(drawn({}, 'top'));
    const box = boxOf(patch);
    expect([box.minX, box.maxX, box.minY, box.maxY].map((value) => Number(value.toFixed(6)))).toEqual([
      -22.05, -1.95, -3.05, 13.05,
    ]);
    expect(patch?.style.fill).toBe('#000000');
  });

  test('not mirrored, the top reads as seen from in front', () => {
    const box = boxOf(artwork(drawn({ mirror: false }, 'top'))[0]);
    expect([box.minX, box.maxX].map((value) => Number(value.toFixed(6)))).toEqual([1.95, 22.05]);
  });

  test('the bottom, seen from behind and mirrored, is as seen from in front; its plane keeps its size and its opening shrinks', () => {
    const [plane, opening] = artwork(drawn({}, 'bottom'));
    expect(boxOf(plane)).toEqual({ minX: -29, maxX: 29, minY: -19, maxY: 19 });
    expect(boxOf(opening).minX).toBeCloseTo(-12.95, 3);
    expect(opening?.style.fill).toBe('#ffffff');
    expect(boxOf(artwork(drawn({ mirror: false }, 'bottom'))[1]).maxX).toBeCloseTo(12.95, 3);
  });

  test('a negative starts black beyond the edge of the board, and exchanges the two', () => {
    const [ground, plane, opening] = artwork(drawn({ film: 'negative' }, 'bottom'));
    expect(boxOf(ground)).toEqual({ minX: -32, maxX: 32, minY: -22, maxY: 22 });
    expect([ground, plane, opening].map((one) => one?.style.fill)).toEqual(['#000000', '#ffffff', '#000000']);
  });
});

describe('both sides together', () => {
  test.each([true, false])('their marks meet when the films are laid face to face (mirrored: %s)', (mirror) => {
    const marks = (side: 'top' | 'bottom') =>
      drawn({ mirror }, side)
        .filter(({ group, rings }) => group === 'register-marks' && (rings[0]?.length ?? 0) > 2)
        .map((one) => boxOf(one))
        .map((box) => ({ x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2, size: box.maxX - box.minX }));
    const turned = marks('bottom').map(({ x, y, size }) => ({ x: 0 - x, y, size }));
    const top = marks('top');
    expect(top).toHaveLength(5);
    top.forEach((mark, index) => {
      expect(mark.x).toBeCloseTo(turned[index]?.x ?? Number.NaN, 9);
      expect(mark.y).toBeCloseTo(turned[index]?.y ?? Number.NaN, 9);
      expect(mark.size).toBeCloseTo(turned[index]?.size ?? Number.NaN, 9);
    });
  });
});

test('a printer that makes 100 mm come out at 99.7 across and 100.2 up is made up for', () => {
  const list = drawn({ measuredMm: { x: 99.7, y: 100.2 } }, 'top');
  const box = boxOf(artwork(list)[0]);
  // What the printer then puts on paper: drawn size times what it makes of 1 mm.
  expect((box.maxX - box.minX) * 0.997).toBeCloseTo(20.1, 6);
  expect((box.maxY - box.minY) * 1.002).toBeCloseTo(16.1, 6);
  const bar = boxOf(list.find(({ id }) => id === 'bar-up'));
  expect((bar.maxY - bar.minY) * 1.002).toBeCloseTo(100, 6);
});

test('hatching breaks large areas by dashes that stay off every edge and opening', () => {
  expect(artwork(drawn({}, 'bottom')).some(({ id }) => id === 'dashes')).toBe(false);
  const dashes = artwork(drawn({ fill: 'hatched' }, 'bottom')).find(({ id }) => id === 'dashes');
  expect(dashes?.style.fill).toBe('#ffffff');
  const points = dashes?.rings.flat() ?? [];
  expect(points.length).toBeGreaterThan(100);
  for (const { x, y } of points) {
    expect(Math.min(29 - Math.abs(x), 19 - Math.abs(y))).toBeGreaterThan(1.3);
    expect(Math.hypot(x + 10, y)).toBeGreaterThan(3 + 1.3);
  }
});

test('only boards that are etched, and only sides with copper, have a film', () => {
  const milled = { ...board, process: { ...board.process, id: 'mill' } } as BoardPart;
  expect(drawn({}, 'top', milled)).toEqual([]);
  const single = { ...board, copper: { ...board.copper, bottom: [] } } as BoardPart;
  expect(drawn({}, 'bottom', single)).toEqual([]);
  expect(drawn({}, 'top', single).length).toBeGreaterThan(0);
});
