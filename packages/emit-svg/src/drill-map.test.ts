import type { Hole, PlatePart } from '@sheetwave/geometry';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { outsidePage, overlappingTexts, readSvg } from '../testing/read-svg.ts';
import { assemblyOf, disc, hole, plate } from '../testing/sample.ts';
import { drillMapFile as drillMap } from './emit.ts';

function mapOf(part: PlatePart) {
  const file = drillMap(assemblyOf([part]), part);
  if (file === undefined) throw new Error('no drill map');
  return { file, svg: readSvg(file) };
}

const driven = plate('patch-driven', {
  widthMm: 27.3,
  heightMm: 25.1,
  holes: [hole(0, 0, 3.4), hole(0, -8.25, 1.3, 'feed')],
});

describe('a patch with a fixing hole and a feed hole', () => {
  const { file, svg } = mapOf(driven);
  const words = svg.texts.map((text) => text.words);

  test('goes to the templates', () => {
    expect([file.path, file.kind, file.part]).toEqual([
      'templates/patch-driven-drill-map.svg',
      'drill-map-svg',
      'patch-driven',
    ]);
  });

  test('is drawn at true size', () => {
    expect(svg.viewBox).toEqual([0, 0, svg.widthMm, svg.heightMm]);
    const box = svg
      .attribute('outline', 'd')
      .match(/-?[\d.]+ -?[\d.]+/g)
      ?.map((pair) => pair.split(' ').map(Number));
    const xs = box?.map(([x = 0]) => x) ?? [];
    const ys = box?.map(([, y = 0]) => y) ?? [];
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(27.3, 3);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(25.1, 3);
  });

  test('has its holes where the part has them', () => {
    const [feed, fixing] = ['hole-A1', 'hole-B1'].map((id) => svg.circles.find((circle) => circle.id === id));
    expect([feed?.r, fixing?.r]).toEqual([0.65, 1.7]);
    expect((feed?.y ?? 0) - (fixing?.y ?? 0)).toBeCloseTo(8.25, 3);
    expect(feed?.x).toBeCloseTo(fixing?.x ?? 0, 3);
  });

  // By hand: half of 27.3 is 13.65; 25.1 / 2 = 12.55; 12.55 - 8.25 = 4.3.
  test.each(['0', '13.65', '27.3', '4.3', '12.55', '25.1'])('gives the running dimension %s', (dimension) => {
    expect(words).toContain(dimension);
  });

  test.each([
    'Heron Lock',
    'B',
    'Brass sheet 0.8 mm',
    '0.8 mm',
    '4 for one antenna',
    'seen from the front',
    'Feed pin',
    'Fixing screw',
    'Ø 1.3 mm',
    'Print at 100 %, no fitting to the page.',
  ])('says %s', (sentence) => {
    expect(words).toContain(sentence);
  });

  test('has words that do not cover each other, inside the page', () => {
    expect(overlappingTexts(svg)).toEqual([]);
    expect(outsidePage(svg)).toEqual([]);
  });
});

test('a round part counts from its centre lines', () => {
  const { svg } = mapOf(disc('patch-top', 24, [hole(0, 0, 3.4)]));
  const words = svg.texts.map((text) => text.words);
  expect(words.filter((word) => /^\u2212?[\d.]+$/.test(word)).sort()).toEqual(
    ['0', '0', '12', '12', '\u221212', '\u221212', '1', '0', '25'].sort(),
  );
  expect(words).toContain('Dimensions in mm count from the two centre lines.');
});

test('a part without holes needs no drill map', () => {
  const bare = plate('patch-bare', { widthMm: 20, heightMm: 20, holes: [] });
  expect(drillMap(assemblyOf([bare]), bare)).toBeUndefined();
});

const somewhere = fc.record({ x: fc.integer({ min: -95, max: 95 }), y: fc.integer({ min: -45, max: 45 }) });
const holes = fc.uniqueArray(somewhere, { minLength: 1, maxLength: 60, selector: ({ x, y }) => `${x} ${y}` });

test('words never cover each other and nothing leaves the page, wherever the holes are', () => {
  fc.assert(
    fc.property(holes, fc.constantFrom(1.3, 3.4), (places, diameterMm) => {
      const drilled: readonly Hole[] = places.map(({ x, y }) => hole(x, y, diameterMm));
      const { svg } = mapOf(plate('reflector', { widthMm: 200, heightMm: 100, holes: drilled }));
      expect(overlappingTexts(svg)).toEqual([]);
      expect(outsidePage(svg)).toEqual([]);
      expect(svg.circles.length).toBe(places.length);
    }),
    { numRuns: 25 },
  );
});

test('a lattice of 256 holes has 16 dimensions along each edge, not 256', () => {
  const lattice = Array.from({ length: 256 }, (_, index) =>
    hole(((index % 16) - 7.5) * 41, (Math.floor(index / 16) - 7.5) * 41, 3.4),
  );
  const { file, svg } = mapOf(plate('reflector', { widthMm: 680, heightMm: 680, holes: lattice }));
  expect(svg.circles.length).toBe(256);
  const running = svg.text.split('id="dimensions"')[1]?.split('</g>')[0] ?? '';
  expect(running.match(/<text /g)?.length).toBe(2 * (16 + 2));
  expect(svg.texts.filter(({ words }) => /^A\d+$/.test(words)).length).toBe(256);
  expect(file.bytes.length).toBeLessThan(200_000);
});
