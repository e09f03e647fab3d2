import { describe, expect, it } from 'vitest';
import { singleSheet } from '../../testing/files.ts';
import { readDesign } from '../read-design.ts';

const read = (lines: string) => readDesign(`${singleSheet}[prices]\n${lines}\n`);

describe('prices of stock', () => {
  it('are read with their currency, what they buy, and the size of a pack', () => {
    const { design, findings } = read('"brass-0.5" = "18.50 EUR per sheet"\nm3-nut-brass = ".5EUR per 100 pieces"');
    expect(findings).toEqual([]);
    expect(design?.prices).toEqual({
      currency: 'EUR',
      of: [
        { id: 'brass-0.5', amount: 18.5, count: 1, unit: 'sheet' },
        { id: 'm3-nut-brass', amount: 0.5, count: 100, unit: 'piece' },
      ],
    });
  });

  it('are none when the file gives none', () => {
    expect(readDesign(singleSheet).design?.prices).toBeUndefined();
    expect(read('').design?.prices).toBeUndefined();
  });

  it('may be of own stock, and of what only has holes in the design', () => {
    const own =
      '"my-brass" = "3 EUR per kg"\nu-bolt = "2 EUR per piece"\n[stock.sheet.my-brass]\nmaterial = "brass"\nthickness = "1 mm"';
    expect(read(own).findings).toEqual([]);
  });

  it.each([
    ['"brass-0.55" = "18 EUR per sheet"', 'prices."brass-0.55"', 'unknown-stock', 'brass-0.5'],
    ['brass-0.5 = "18 EUR per sheet"', 'prices.brass-0', 'wrong-type', 'between quotes'],
    ['m3-nut-brass = "-1 EUR per piece"', 'prices.m3-nut-brass', 'out-of-range', '0 or more'],
    ['m3-nut-brass = "1 EUR per 0 pieces"', 'prices.m3-nut-brass', 'out-of-range', 'price of one'],
    ['"brass-0.5" = "1 EUR per 10 sheet"', 'prices."brass-0.5"', 'out-of-range', 'price of one'],
    ['m3-nut-brass = "1 EUR per bag"', 'prices.m3-nut-brass', 'unknown-unit', 'piece'],
    ['m3-nut-brass = "1 EUR per metre"', 'prices.m3-nut-brass', 'wrong-unit', 'per piece'],
    ['m3-nut-brass = "1 eur per piece"', 'prices.m3-nut-brass', 'not-a-price', 'EUR per'],
    ['m3-nut-brass = "1"', 'prices.m3-nut-brass', 'not-a-price', 'EUR per'],
    ['m3-nut-brass = 1', 'prices.m3-nut-brass', 'missing-unit', 'EUR per'],
    ['m3-nut-brass = "1,5 EUR per piece"', 'prices.m3-nut-brass', 'decimal-comma', 'decimal point'],
    [
      'm3-nut-brass = "1 EUR per piece"\n"brass-0.5" = "1 USD per sheet"',
      'prices."brass-0.5"',
      'two-currencies',
      'one currency',
    ],
  ])('%s is refused', (lines, path, code, remedy) => {
    const { design, findings } = read(lines);
    expect(design).toBeUndefined();
    expect(findings.map((one) => [one.severity, one.code])).toEqual([['error', code]]);
    expect(findings[0]?.path).toBe(path);
    expect(findings[0]?.remedy).toContain(remedy);
    expect(findings[0]?.line).toBeGreaterThan(0);
  });
});
