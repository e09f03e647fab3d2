import { describe, expect, it } from 'vitest';
import { etchedArray, rodArray, singleSheet, validFiles } from '../testing/files.ts';
import type { Design } from './design.ts';
import { dimensionsOf, withDimensions } from './dimensions.ts';
import { readDesign } from './read-design.ts';

function designOf(text: string): Design {
  const { design } = readDesign(text);
  if (design === undefined) throw new Error('the file is valid');
  return design;
}
const tolerances = (text: string) =>
  Object.fromEntries(dimensionsOf(designOf(text)).map(({ path, tolerance }) => [path, tolerance.plusMinus]));

describe('dimensionsOf', () => {
  it('lists what tool, spacer and supplier set, with their tolerances', () => {
    // By hand: sawn ±0.3 mm, punched ±0.25 mm, metal spacers ±0.1 mm with the bow of 2 mm over 300 mm on the diagonal of
    // 53 x 60 mm: 2 (80.056 / 300)^2 = 0.1424 mm (workshop practice, memory); 0.5 mm brass ±0.03 mm (EN 1652, confirmed).
    const found = tolerances(singleSheet);
    expect(Object.keys(found)).toEqual([
      'layer[0].length',
      'layer[0].width',
      'layer[0].spacer',
      'layer[0].sheet',
      'feed.from_edge',
    ]);
    expect(found['layer[0].length']).toBe(0.3);
    expect(found['feed.from_edge']).toBe(0.25);
    expect(found['layer[0].spacer']).toBeCloseTo(Math.hypot(0.1, 0.1424), 4);
    expect(found['layer[0].sheet']).toBe(0.03);
  });

  it('takes what the file says instead', () => {
    const own =
      '[tolerances]\ncut = "0.05 mm"\ndrill = "0.08 mm"\nspacer = "0.2 mm"\nflatness = "1 um"\nsheet = "0.01 mm"\n';
    const found = Object.values(tolerances(singleSheet + own));
    expect(found.map((mm) => Math.round(mm * 1e4) / 1e4)).toEqual([0.05, 0.05, 0.2, 0.01, 0.08]);
  });

  it('knows harness and boards; a permittivity in its own unit', () => {
    expect(dimensionsOf(designOf(rodArray)).map(({ path }) => path)).toEqual(
      expect.arrayContaining([
        'layer[1].spacer.printed',
        'layer[1].board',
        'harness.height',
        'harness.level[2].section.length',
      ]),
    );
    const [board] = dimensionsOf(designOf(etchedArray)).filter(({ path }) => path === 'reflector.board');
    expect(board?.unit).toBe('');
    expect(board?.tolerance.plusMinus).toBeCloseTo(0.02 * (board?.nominal ?? 0), 12);
  });
});

describe('withDimensions', () => {
  it.each(Object.entries(validFiles))('sets each dimension of %s and no other', (_, text) => {
    const design = designOf(text);
    for (const { path, nominal } of dimensionsOf(design)) {
      const changed = withDimensions(design, { [path]: nominal * 1.01 });
      const differing = dimensionsOf(changed).filter(
        (one, index) => one.nominal !== dimensionsOf(design)[index]?.nominal,
      );
      expect(differing.map((one) => [one.path, one.nominal])).toEqual([[path, nominal * 1.01]]);
      expect(withDimensions(changed, { [path]: nominal })).toEqual(design);
      expect(Object.isFrozen(changed.layers)).toBe(true);
    }
  });

  it('throws for what is no dimension or no size: a fault of a program', () => {
    const design = designOf(singleSheet);
    expect(() => withDimensions(design, { 'layer[7].length': 1 })).toThrow(RangeError);
    for (const value of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => withDimensions(design, { 'layer[0].length': value })).toThrow(RangeError);
    }
  });
});
