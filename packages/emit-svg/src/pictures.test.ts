import type { Assembly } from '@sheetwave/geometry';
import * as pictures from '@sheetwave/pictures';
import { describe, expect, test } from 'vitest';
import { stacked } from '../testing/design.ts';
import { outsidePage, overlappingTexts, readSvg } from '../testing/read-svg.ts';
import { pictureFile } from './emit.ts';

const antennaTop = (assembly: Assembly) => pictureFile('antenna-top', pictures.antennaTop(assembly));
const antennaExploded = (assembly: Assembly) => pictureFile('antenna-exploded', pictures.antennaExploded(assembly));
const stackSection = (assembly: Assembly) => pictureFile('stack-section', pictures.stackSection(assembly));

const four = stacked(2, 2);
const sixteen = stacked(4, 4);
const wordsOf = (svg: { readonly texts: readonly { readonly words: string }[] }) => svg.texts.map(({ words }) => words);

describe.each([
  ['from the front', antennaTop],
  ['exploded', antennaExploded],
  ['section', stackSection],
] as const)('the picture %s', (_, draw) => {
  test.each([
    ['four', four],
    ['sixteen', sixteen],
  ])('of %s stacks keeps its words apart and inside the page', (__, assembly) => {
    const svg = readSvg(draw(assembly));
    expect(overlappingTexts(svg)).toEqual([]);
    expect(outsidePage(svg)).toEqual([]);
    expect(svg.viewBox).toEqual([0, 0, svg.widthMm, svg.heightMm]);
  });

  test('is a picture of the whole, with the name of the design', () => {
    const file = draw(four);
    expect([file.kind, file.part]).toEqual(['picture-svg', undefined]);
    expect(wordsOf(readSvg(file))).toContain('Heron Lock & test');
  });

  test('has the same bytes each time', () => {
    const first = draw(four);
    draw(sixteen);
    expect(draw(four).bytes).toEqual(first.bytes);
  });
});

describe('the picture from the front', () => {
  const svg = readSvg(antennaTop(four));

  // Given in the design: reflector 130 × 125 mm, pitches 40 mm.
  test.each(['130', '125', '40'])('gives the dimension %s', (dimension) => {
    expect(wordsOf(svg)).toContain(dimension);
  });

  test('names layers, harness, coax and the polarisation', () => {
    expect(wordsOf(svg)).toEqual(
      expect.arrayContaining([
        'driven patch',
        'middle patch',
        'outer patch',
        'rod harness',
        'coax',
        'E field vertical',
      ]),
    );
  });

  test('has the feed points a pitch apart at the scale of the reflector', () => {
    const feeds =
      svg.text
        .split('id="feed-points"')[1]
        ?.split('</g>')[0]
        ?.match(/cx="[\d.]+"/g) ?? [];
    const places = feeds.map((attribute) => Number(attribute.slice(4, -1)));
    expect(places).toHaveLength(4);
    expect(Math.max(...places) - Math.min(...places)).toBeCloseTo((40 * 150) / 130, 3);
  });
});

describe('the exploded picture', () => {
  test('names every part with its number', () => {
    const words = wordsOf(readSvg(antennaExploded(four)));
    for (const part of four.parts) expect(words).toContain(part.name);
    // Two spacers of 6 mm in each of four stacks.
    expect(words.filter((word) => word === '4 here, 8 in all')).toHaveLength(2);
  });

  test('shows a single stack of a larger antenna and says so', () => {
    expect(wordsOf(readSvg(antennaExploded(sixteen)))).toContain('exploded view of one of 16 stacks, revision C');
  });
});

describe('the section', () => {
  const svg = readSvg(stackSection(four));

  // By hand: 5 mm spacer, 0.5 mm sheet, 6 mm, 0.5 mm, 6 mm, 0.5 mm; sheet of the reflector 1 mm below 0.
  test.each(['\u22121', '0', 'rod axis 2.1', '5', '5.5', '11.5', '12', '18', '18.5'])(
    'gives the height %s',
    (height) => {
      expect(wordsOf(svg)).toContain(height);
    },
  );

  test('is to scale: the height lines lie as far apart as the heights', () => {
    const lines =
      svg
        .attribute('levels', 'd')
        .match(/M[\d.]+ [\d.]+/g)
        ?.map((start) => Number(start.split(' ')[1])) ?? [];
    const levels = [...lines].sort((a, b) => b - a);
    const scale = ((levels[0] ?? 0) - (levels.at(-1) ?? 0)) / 19.5;
    const heights = levels.map((y) => ((levels[0] ?? 0) - y) / scale - 1);
    const wanted = [-1, 0, 2.1, 5, 5.5, 11.5, 12, 18, 18.5];
    for (const [index, height] of wanted.entries()) expect(heights[index]).toBeCloseTo(height, 3);
  });

  test('names the gaps', () => {
    expect(
      wordsOf(svg)
        .filter((word) => word.startsWith('gap'))
        .sort(),
    ).toEqual(['gap 5 mm', 'gap 6 mm', 'gap 6 mm']);
  });
});
