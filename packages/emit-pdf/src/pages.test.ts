import type { Paper } from '@sheetwave/design';
import { type PartDrawing, printCheck, wordsBlock } from '@sheetwave/drawings';
import { expect, test } from 'vitest';
import { pagedPdf } from './pages.ts';

const A4: Paper = { size: 'a4', marginMm: 8, overlapMm: 10 };

function plain(widthMm: number, heightMm: number, about: Partial<PartDrawing> = {}): PartDrawing {
  const drawing = { minX: 0, minY: 0, maxX: widthMm, maxY: heightMm };
  return {
    title: 'Heron & Lock <landing>',
    about: 'made up for this test',
    drawing,
    blocks: [wordsBlock('words', ['One line of words.'], 60), printCheck(100)],
    draw: (pen) => pen.box(drawing, { stroke: '#000000', width: 0.2, fill: 'none' }),
    ...about,
  };
}

/** Pages as the file lists them, by plain text search: width and height in mm. */
function sizes(bytes: Uint8Array): readonly (readonly [number, number])[] {
  const text = new TextDecoder('latin1').decode(bytes);
  return [...text.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, width, height]) => [
    Math.round((Number(width) / 72) * 254) / 10,
    Math.round((Number(height) / 72) * 254) / 10,
  ]);
}

const make = (drawing: PartDrawing, paper: Paper = A4, date: string | undefined = '2026-05-17') =>
  pagedPdf(drawing, { paper, date });

// By hand for A4 with margins of 8 mm, 24 mm of foot and 4 mm above it: a page holds 194 by 253 mm upright, 281 by 166 mm across.
test('a drawing that fits is on one page together with its words', () => {
  expect(sizes(make(plain(150, 200)))).toEqual([[210, 297]]);
});

test('it lies across when that saves pages, and upright otherwise', () => {
  expect(sizes(make(plain(270, 140)))).toEqual([[297, 210]]);
  expect(sizes(make(plain(100, 100)))).toEqual([[210, 297]]);
});

test('words have a page of their own when they no longer fit', () => {
  expect(sizes(make(plain(150, 250)))).toEqual([
    [210, 297],
    [210, 297],
  ]);
});

test('a large drawing takes the fewest pages, and one of words', () => {
  // Upright 2 x 2, across 2 x 2: upright; 380 by 150 across is 2 x 1 as well as upright, so upright.
  expect(sizes(make(plain(300, 300)))).toHaveLength(5);
  // Across two pages (281 + 271 = 552 mm), upright three.
  expect(sizes(make(plain(540, 150)))).toEqual(Array.from({ length: 3 }, () => [297, 210]));
});

test('letter paper is 8.5 by 11 inch', () => {
  expect(sizes(make(plain(50, 50), { ...A4, size: 'letter' }))).toEqual([[215.9, 279.4]]);
});

test('the same drawing gives the same bytes, whatever was made before; its date is the only one in it', () => {
  const first = make(plain(300, 300));
  make(plain(20, 20));
  expect(make(plain(300, 300))).toEqual(first);
  const text = new TextDecoder('latin1').decode(first);
  expect(new Set(text.match(/D:\d{14}/g))).toEqual(new Set(['D:20260517000000']));
});

test('without a date there is none in the file', () => {
  const text = new TextDecoder('latin1').decode(pagedPdf(plain(50, 50), { paper: A4, date: undefined }));
  expect(text).not.toMatch(/D:\d{8}|CreationDate|ModDate|CreateDate/);
  expect(text).toContain('/Root');
});

test('a date that is none is refused', () => {
  expect(() => make(plain(50, 50), A4, '17 May')).toThrow('not an ISO 8601 date');
});

test('a coordinate that is not a number is refused', () => {
  const broken = plain(50, 50, {
    draw: (pen) => pen.line({ x: 0, y: 0 }, { x: Number.NaN, y: 1 }, { stroke: '#000000' }),
  });
  expect(() => make(broken)).toThrow('not a finite number');
});
