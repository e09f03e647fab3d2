import type { PlatePart } from '@sheetwave/geometry';
import { describe, expect, test } from 'vitest';
import { outsidePage, overlappingTexts, readSvg } from '../testing/read-svg.ts';
import { assemblyOf, disc, hole, plate } from '../testing/sample.ts';
import { templateFile as markingTemplate } from './emit.ts';

const templateOf = (part: PlatePart) => readSvg(markingTemplate(assemblyOf([part]), part));

describe('the template of a driven patch', () => {
  const part = plate('patch-driven', {
    widthMm: 28,
    heightMm: 22,
    holes: [hole(0, 0, 3.4), hole(0, -7, 1.3, 'feed')],
  });
  const svg = templateOf(part);
  const corners = (id: string) =>
    svg
      .attribute(id, 'd')
      .match(/-?[\d.]+ -?[\d.]+/g)
      ?.map((pair) => pair.split(' ').map(Number)) ?? [];
  const width = (id: string) => {
    const xs = corners(id).map(([x = 0]) => x);
    return Math.max(...xs) - Math.min(...xs);
  };

  test('has the finish line at true size and the rough line the allowance outside', () => {
    expect(width('finish-line')).toBeCloseTo(28, 3);
    expect(width('rough-line')).toBeCloseTo(30, 3);
    expect(svg.attribute('rough-line', 'stroke-dasharray')).not.toBe('');
  });

  test('has diagonals through the corners of the finish line', () => {
    const ends = corners('diagonals').map(([x, y]) => `${x} ${y}`);
    for (const [x, y] of corners('finish-line')) expect(ends).toContain(`${x} ${y}`);
  });

  test('marks every hole with its circle, a cross and a punch dot', () => {
    expect(svg.circles.filter(({ id }) => id.startsWith('hole-')).map(({ r }) => r)).toEqual([0.65, 1.7]);
    expect(svg.circles.filter(({ id, r }) => id === '' && r === 0.5)).toHaveLength(1);
  });

  test('points at the feed edge and says what to cut first', () => {
    const words = svg.texts.map((text) => text.words);
    expect(words).toContain('feed edge');
    expect(words.join(' ')).toContain('Punch and drill first, while the sheet is whole: A Ø 1.3 mm feed pin (1);');
    expect(words.join(' ')).toContain('cut along the dashed line, 1 mm outside');
  });

  test('draws hairlines and fills nothing over the metal', () => {
    for (const [, width] of svg.text.matchAll(/stroke-width="([\d.]+)"/g))
      expect(Number(width)).toBeLessThanOrEqual(0.18);
    expect(svg.text.split('id="finish"')[1]?.split('</g>')[0]).not.toMatch(/fill="#/);
  });

  test('has words that do not cover each other, inside the page', () => {
    expect(overlappingTexts(svg)).toEqual([]);
    expect(outsidePage(svg)).toEqual([]);
  });
});

test('without an allowance there is no rough line', () => {
  const part = plate('patch-laser', { widthMm: 28, heightMm: 22, holes: [] });
  const svg = templateOf({ ...part, process: { ...part.process, allowanceMm: 0 } });
  expect(svg.text).not.toContain('rough-line');
  expect(svg.texts.map(({ words }) => words)).toContain('Then cut on the full line.');
});

test('a round part has its diagonals end on its edge', () => {
  const svg = templateOf(disc('patch-round', 24, [hole(0, 0, 3.4)]));
  const centre = { x: Number(svg.attribute('finish-line', 'cx')), y: Number(svg.attribute('finish-line', 'cy')) };
  const numbers = svg.attribute('diagonals', 'd').match(/L-?[\d.]+ -?[\d.]+/g) ?? [];
  expect(numbers).toHaveLength(4);
  for (const pair of numbers) {
    const [x = 0, y = 0] = pair.slice(1).split(' ').map(Number);
    expect(Math.hypot(x - centre.x, y - centre.y)).toBeCloseTo(12, 2);
  }
});
