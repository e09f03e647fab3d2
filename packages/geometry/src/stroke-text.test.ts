import { expect, test } from 'vitest';
import { STROKES } from './stroke-font.ts';
import { legendText, textStrokes, textWidthMm } from './stroke-text.ts';

test('every glyph stays in its cell and has no stroke of a single point', () => {
  for (const [letter, strokes] of Object.entries(STROKES)) {
    for (const stroke of strokes) expect(stroke, letter).toMatch(/^[0-4][0-6]( [0-4][0-6])+$/);
  }
  expect(Object.keys(STROKES)).toHaveLength(26 + 10 + 3);
});

test('no two letters look the same', () => {
  const looks = Object.values(STROKES).map((strokes) => strokes.join('/'));
  expect(new Set(looks).size).toBe(looks.length);
});

test('what the font lacks becomes a dash', () => {
  expect(legendText(' weir 5.8_B/ü ')).toBe('WEIR 5.8-B--');
});

test('text is as wide and as high as it says', () => {
  const points = textStrokes('HEH', 1.2).flat();
  expect(Math.max(...points.map(({ x }) => x))).toBeCloseTo(textWidthMm('HEH', 1.2), 12);
  expect(Math.max(...points.map(({ y }) => y))).toBeCloseTo(1.2, 12);
  expect(textWidthMm('HEH', 1.2)).toBeCloseTo(3.2, 12);
});
