import { circleContour, rectangleContour } from '@sheetwave/geometry';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readSvg } from '../testing/read-svg.ts';
import { fileOf, openCanvas } from './canvas.ts';

const page = { minX: -10, minY: -20, maxX: 30, maxY: 5.5 };

function drawn(words: string) {
  const canvas = openCanvas({ page, title: 'a title', about: 'about it' });
  canvas.circle({ x: 0, y: 0 }, 2, { id: 'dot' });
  canvas.contours([rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 8, heightMm: 4 })], { id: 'frame' });
  canvas.text({ x: 1, y: 2 }, words, { sizeMm: 3, id: 'words' });
  return fileOf(canvas, { path: 'a.svg', kind: 'picture-svg', part: undefined });
}

test('one unit is one millimetre and y runs up', () => {
  const svg = readSvg(drawn('x'));
  expect([svg.widthMm, svg.heightMm, svg.viewBox]).toEqual([40, 25.5, [0, 0, 40, 25.5]]);
  expect(svg.circles).toEqual([{ id: 'dot', x: 10, y: 5.5, r: 2 }]);
  expect([svg.attribute('words', 'x'), svg.attribute('words', 'y')]).toEqual(['11', '3.5']);
});

test('a lone circle is a circle, in company it is two arcs of an even-odd path', () => {
  const canvas = openCanvas({ page, title: '', about: '' });
  canvas.contours([circleContour({ x: 3, y: 0 }, 2)], { id: 'alone' });
  canvas.contours(
    [rectangleContour({ centre: { x: 3, y: 0 }, widthMm: 8, heightMm: 6 }), circleContour({ x: 3, y: 0 }, 2)],
    { id: 'holed', fill: '#ffffff' },
  );
  const svg = readSvg(fileOf(canvas, { path: 'a.svg', kind: 'picture-svg', part: undefined }));
  expect(svg.attribute('alone', 'r')).toBe('2');
  expect(svg.attribute('holed', 'd')).toContain('M15 5.5A2 2 0 0 0 11 5.5A2 2 0 0 0 15 5.5Z');
  expect(svg.attribute('holed', 'fill-rule')).toBe('evenodd');
});

test('two pages drawn alike have the same bytes, whatever was drawn before', () => {
  const first = drawn('same');
  drawn('other');
  expect(drawn('same').bytes).toEqual(first.bytes);
  expect(new TextDecoder().decode(first.bytes).endsWith('</svg>\n')).toBe(true);
});

test('text comes back as it was written', () => {
  fc.assert(
    fc.property(fc.stringMatching(/^[ -~Ø±×λΩ–]{1,20}$/), (words) => {
      expect(readSvg(drawn(words)).texts.map((text) => text.words)).toEqual([words]);
    }),
    { numRuns: 60 },
  );
});

test.each(['\u0000', '\u0007', 'a\nb', '\u009b', '\ufffe', '\ud800'])('refuses %j, which XML cannot hold', (words) => {
  expect(() => drawn(words)).toThrow('which an SVG file cannot hold');
});

test('a coordinate that is not a number is refused', () => {
  const canvas = openCanvas({ page, title: '', about: '' });
  expect(() => canvas.line({ x: Number.NaN, y: 0 }, { x: 1, y: 1 })).toThrow('not a finite number');
});
