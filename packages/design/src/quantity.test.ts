import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatQuantity, parseQuantity, type QuantityKind } from './quantity.ts';

function read(text: string, kind: QuantityKind): number | string {
  const result = parseQuantity(text, kind);
  return result.ok ? result.value : result.problem.code;
}

describe('parseQuantity', () => {
  // Inch: exactly 25.4 mm by the agreement of 1959 (confirmed). SI prefixes: the SI brochure (confirmed).
  it.each([
    ['6 mm', 'length', 6],
    ['0.6cm', 'length', 6],
    [' .5 m ', 'length', 500],
    ['35 um', 'length', 0.035],
    ['35 \u00b5m', 'length', 0.035],
    ['35 \u03bcm', 'length', 0.035],
    ['1 in', 'length', 25.4],
    ['0.25 in', 'length', 6.35],
    ['31 mil', 'length', 0.7874],
    ['1e1 mm', 'length', 10],
    ['-3 mm', 'length', -3],
    ['5.725 GHz', 'frequency', 5_725_000_000],
    ['5785 MHz', 'frequency', 5_785_000_000],
    ['1 kHz', 'frequency', 1000],
    ['50 ohm', 'impedance', 50],
    ['14 dBi', 'gain', 14],
    ['-3 dB', 'gain', -3],
    ['90 deg', 'angle', 90],
  ] as const)('reads %j as %s %d', (text, kind, value) => {
    expect(read(text, kind)).toBe(value);
  });

  it.each([
    ['6', 'missing-unit'],
    ['six mm', 'not-a-quantity'],
    ['', 'not-a-quantity'],
    ['mm', 'not-a-quantity'],
    ['nan mm', 'not-a-quantity'],
    ['inf mm', 'not-a-quantity'],
    ['0x10 mm', 'not-a-quantity'],
    ['6 mm 7 mm', 'not-a-quantity'],
    ['6,5 mm', 'decimal-comma'],
    ['6 MM', 'unknown-unit'],
    ['6 furlong', 'unknown-unit'],
    ['6 GHz', 'unknown-unit'],
    ['1e999 mm', 'out-of-range'],
    [`${'1'.repeat(100)} mm`, 'not-a-quantity'],
  ])('refuses %j as a length: %s', (text, code) => {
    expect(read(text, 'length')).toBe(code);
  });

  it('says which unit is missing or misspelt', () => {
    expect(parseQuantity('6', 'length')).toMatchObject({ problem: { remedy: 'write "6 mm"' } });
    expect(parseQuantity('5.5 ghz', 'frequency')).toMatchObject({ problem: { remedy: 'write "5.5 GHz"' } });
    expect(parseQuantity('6,5 mm', 'length')).toMatchObject({ problem: { remedy: 'write a decimal point: "6.5 mm"' } });
  });

  it('holds a value to its closed range and names the limit', () => {
    const range = { min: 0.1, max: 2000 };
    expect(parseQuantity('0.1 mm', 'length', range).ok).toBe(true);
    expect(parseQuantity('2 m', 'length', range).ok).toBe(true);
    expect(parseQuantity('0 mm', 'length', range)).toMatchObject({
      problem: { allowed: 'a length', remedy: 'give at least 0.1 mm' },
    });
    expect(parseQuantity('0.05 mm', 'length', range)).toMatchObject({ problem: { remedy: 'give at least 0.1 mm' } });
    expect(parseQuantity('2001 mm', 'length', range)).toMatchObject({ problem: { remedy: 'give at most 2000 mm' } });
  });

  it('never throws', () => {
    fc.assert(
      fc.property(fc.string(), (text) => typeof parseQuantity(text, 'length').ok === 'boolean'),
      { seed: 11 },
    );
  });
});

describe('formatQuantity', () => {
  it('gives back the very value after reading it again: lengths to 1e-6 mm, frequencies to 1 Hz', () => {
    const micro = fc.integer({ min: -5e9, max: 5e9 }).map((n) => n / 1e6);
    const kinds = fc.constantFrom<QuantityKind>('length', 'impedance', 'gain', 'angle');
    fc.assert(
      fc.property(micro, kinds, (value, kind) => {
        expect(read(formatQuantity(value, kind), kind)).toBe(value + 0);
      }),
      { seed: 12, numRuns: 2000 },
    );
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100e9 }), (hz) => {
        expect(read(formatQuantity(hz, 'frequency'), 'frequency')).toBe(hz);
      }),
      { seed: 13, numRuns: 2000 },
    );
  });

  it('converts thousandths of an inch exactly as whole numbers do', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), (mil) => {
        const exact = (mil * 254) / 1e4;
        expect(read(`${mil} mil`, 'length')).toBe(exact);
        expect(read(`${mil / 1000} in`, 'length')).toBe(exact);
      }),
      { seed: 14, numRuns: 1000 },
    );
  });

  it('writes short decimals in the unit people use', () => {
    expect(formatQuantity(0.787, 'length')).toBe('0.787 mm');
    expect(formatQuantity(100, 'length')).toBe('100 mm');
    expect(formatQuantity(2.4835e9, 'frequency')).toBe('2.4835 GHz');
    expect(formatQuantity(433.92e6, 'frequency')).toBe('433.92 MHz');
    expect(formatQuantity(1500, 'frequency')).toBe('1.5 kHz');
    expect(formatQuantity(50, 'frequency')).toBe('50 Hz');
  });
});
