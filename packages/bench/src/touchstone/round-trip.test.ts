import { type Complex, complex, type Response } from '@sheetwave/rf';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FrequencyUnit, NumberFormat, Parameter } from './options.ts';
import { readTouchstone } from './read-touchstone.ts';
import type { TouchstoneFile } from './touchstone-file.ts';
import { createTouchstoneReader } from './touchstone-reader.ts';
import { writeTouchstone } from './write-touchstone.ts';

/*
 * What is written reads back, over every option; and the files of a second writer, made here with all the freedom that the format leaves,
 * read as what went into them.
 */

const units = fc.constantFrom<FrequencyUnit[]>('Hz', 'kHz', 'MHz', 'GHz');
const formats = fc.constantFrom<NumberFormat[]>('DB', 'MA', 'RI');
const unitless = fc.double({ min: -0.9, max: 0.9, noNaN: true });
const frequencies = fc.uniqueArray(fc.double({ min: 1, max: 1e11, noNaN: true }), { minLength: 1, maxLength: 5 });

const responses = (ports: number): fc.Arbitrary<Response> =>
  fc.tuple(frequencies, fc.double({ min: 0.1, max: 1000, noNaN: true })).chain(([freqs, referenceOhm]) => {
    const freqHz = [...freqs].sort((a, b) => a - b);
    const numbers = fc.array(unitless, {
      minLength: 2 * ports ** 2 * freqHz.length,
      maxLength: 2 * ports ** 2 * freqHz.length,
    });
    return numbers.map((list) => ({
      origin: 'measurement',
      method: 'Made up.',
      error: { origin: 'None.' },
      freqHz,
      referenceOhm,
      s: freqHz.map((_, i) =>
        rowsOf(ports, (k) => complex(list[2 * (i * ports ** 2 + k)] ?? 0, list[2 * (i * ports ** 2 + k) + 1] ?? 0)),
      ),
    }));
  });

const rowsOf = (ports: number, value: (k: number) => Complex): Complex[][] =>
  Array.from({ length: ports }, (_, to) => Array.from({ length: ports }, (_, from) => value(to * ports + from)));

function fileOf(text: string, name?: string): TouchstoneFile {
  const reading = readTouchstone(text, name === undefined ? {} : { name });
  expect(reading.findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
  if (!reading.ok) throw new Error('not read');
  return reading.file;
}

/** Largest difference of any part of any coefficient. */
function difference(a: Response, b: Response): number {
  const flat = (response: Response) => response.s.flat(2).flatMap(({ re, im }) => [re, im]);
  const other = flat(b);
  return Math.max(...flat(a).map((value, i) => Math.abs(value - (other[i] ?? Number.NaN))));
}

describe('what is written', () => {
  it('reads back the same: real and imaginary parts, frequencies and reference to the last bit', () => {
    const cases = fc
      .integer({ min: 1, max: 5 })
      .chain((ports) => fc.tuple(responses(ports), units, fc.constantFrom<('1.1' | '2.0')[]>('1.1', '2.0')));
    fc.assert(
      fc.property(
        cases,
        fc.constantFrom<('12_21' | '21_12')[]>('12_21', '21_12'),
        ([response, unit, version], twoPortOrder) => {
          const ports = response.s[0]?.length ?? 0;
          const { response: back } = fileOf(writeTouchstone(response, { version, unit, twoPortOrder }), `a.s${ports}p`);
          expect(back.freqHz).toEqual(response.freqHz);
          expect(back.referenceOhm).toBe(response.referenceOhm);
          expect(difference(back, response)).toBe(0);
        },
      ),
      { seed: 1 },
    );
  });

  it('reads back in every format and parameter to rounding', () => {
    const cases = fc.constantFrom(1, 2, 3).chain((ports) => {
      const parameters = ports === 2 ? (['S', 'Y', 'Z', 'H', 'G'] as const) : (['S', 'Y', 'Z'] as const);
      return fc.tuple(responses(ports), fc.constantFrom<Parameter[]>(...parameters));
    });
    fc.assert(
      fc.property(
        cases,
        formats,
        fc.constantFrom<('1.1' | '2.0')[]>('1.1', '2.0'),
        ([response, parameter], format, version) => {
          // Matrices near a place where a parameter does not exist lose digits; halving the coefficients keeps away from it.
          const ports = response.s[0]?.length ?? 1;
          const small = {
            ...response,
            s: response.s.map((m) =>
              m.map((row) => row.map(({ re, im }) => complex(re / (2 * ports), im / (2 * ports)))),
            ),
          };
          const { response: back } = fileOf(writeTouchstone(small, { version, format, parameter }));
          expect(difference(back, small)).toBeLessThan(1e-13);
        },
      ),
      { seed: 2 },
    );
  });

  it('carries comments and noise', () => {
    const response: Response = {
      origin: 'measurement',
      method: '',
      error: { origin: '' },
      freqHz: [1e9, 2e9],
      referenceOhm: 50,
      s: [0.1, 0.2].map((re) => [
        [complex(re), complex(0)],
        [complex(0.5), complex(re)],
      ]),
    };
    const noise = [{ freqHz: 1e9, minimumFigureDb: 0.7, optimumReflection: complex(0, 0.5), resistanceOhm: 19 }];
    for (const version of ['1.1', '2.0'] as const) {
      const file = fileOf(writeTouchstone(response, { version, noise, comments: ['Boathouse\nsecond sweep'] }));
      expect(file.comments).toEqual(['Boathouse', 'second sweep']);
      expect(file.noise).toHaveLength(1);
      expect(file.noise[0]?.resistanceOhm).toBeCloseTo(19, 12);
      expect(file.noise[0]?.optimumReflection.im).toBeCloseTo(0.5, 12);
    }
  });

  it('is refused where the format has no word for it', () => {
    const open: Response = {
      origin: 'measurement',
      method: '',
      error: { origin: '' },
      freqHz: [1e9],
      referenceOhm: 50,
      s: [[[complex(1)]]],
    };
    expect(() => writeTouchstone(open, { parameter: 'Z' })).toThrow(/no Z parameters/);
    expect(() => writeTouchstone(open, { parameter: 'H' })).toThrow(/two ports/);
    expect(() => writeTouchstone({ ...open, freqHz: [], s: [] })).toThrow(/without frequencies/);
  });
});

/** How a writer that is not ours may lay a file out. */
interface Layout {
  readonly upper: boolean;
  readonly order: readonly number[];
  readonly blanks: readonly string[];
  readonly lineEnd: string;
  readonly commented: boolean;
  readonly wrap: number;
}

const layouts: fc.Arbitrary<Layout> = fc.record({
  upper: fc.boolean(),
  order: fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }),
  blanks: fc.constantFrom([' '], ['\t'], ['   ', ' \t ']),
  lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
  commented: fc.boolean(),
  wrap: fc.integer({ min: 1, max: 4 }),
});

/** The same response by other code: fixed digits, any option order, comments anywhere, rows wrapped after any number of pairs. */
function otherWriter(response: Response, layout: Layout): string {
  const words = ['mHz', 's', 'Ri', `r ${response.referenceOhm}`].map((word) =>
    layout.upper ? word.toUpperCase() : word,
  );
  const ports = response.s[0]?.length ?? 0;
  let turn = 0;
  const blank = () => layout.blanks[turn++ % layout.blanks.length] ?? ' ';
  const out = ['! made by hand', `#${blank()}${layout.order.map((i) => words[i]).join(blank())}`, ''];
  response.s.forEach((matrix, i) => {
    const columns = ports === 2 ? [[matrix[0]?.[0], matrix[1]?.[0], matrix[0]?.[1], matrix[1]?.[1]]] : matrix;
    let line = String((response.freqHz[i] ?? 0) / 1e6);
    for (const row of columns) {
      row.forEach((value, k) => {
        if (ports > 2 && k > 0 && k % layout.wrap === 0) {
          out.push(line + (layout.commented ? `${blank()}! row ${k}` : ''));
          line = '';
        }
        line +=
          `${blank()}+${(value?.re ?? 0).toExponential(12)}${blank()}${(value?.im ?? 0).toExponential(12)}`.replaceAll(
            '+-',
            '-',
          );
      });
      out.push(line);
      if (layout.commented) out.push('  ! between rows', '');
      line = '';
    }
  });
  return out.join(layout.lineEnd);
}

describe('files laid out by another writer', () => {
  it('read as what went into them', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 6 }).chain(responses), layouts, (response, layout) => {
        const { response: back, ports } = fileOf(otherWriter(response, layout));
        expect(ports).toBe(response.s[0]?.length);
        expect(difference(back, response)).toBeLessThan(1e-12);
        back.freqHz.forEach((value, i) => {
          expect(value / (response.freqHz[i] ?? 0)).toBeCloseTo(1, 12);
        });
      }),
      { seed: 4 },
    );
  });

  it('read the same in any pieces', () => {
    const text = '! µ in a comment\r\n# MHz S RI R 50\r\n100 0.1 0.2 ! end\r\n200 0.3 0.4\r\n';
    const bytes = new TextEncoder().encode(text);
    const whole = readTouchstone(text);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: bytes.length }), { maxLength: 12 }), (cuts) => {
        const reader = createTouchstoneReader();
        const ends = [0, ...[...cuts].sort((a, b) => a - b), bytes.length];
        for (let i = 1; i < ends.length; i++) reader.push(bytes.subarray(ends[i - 1], ends[i]));
        expect(reader.end()).toEqual(whole);
      }),
      { seed: 6 },
    );
    expect(whole.ok && whole.file.comments).toEqual(['µ in a comment', 'end']);
  });

  it('never make the reader throw, and findings have lines', () => {
    const scraps = fc.constantFrom(
      '# GHz S MA R 50',
      '#',
      '[Version] 2.0',
      '[Number of Ports] 2',
      '[Reference] 50',
      '[Network Data]',
      '[Noise Data]',
      '[End]',
      '[Two-Port Data Order] 12_21',
      '[Matrix Format] Lower',
      '1 0.1 0.2',
      '2 0 0 0 0 0 0 0 0',
      '3 1 2 3 4',
      '-1 NaN',
      '1e999 0 0',
      '!',
      'x',
      '[',
      '0x10 1 1',
      '[Begin Information]',
      '[End Information]',
      '\u0000',
      'é',
      '[Number of Frequencies] 1',
    );
    fc.assert(
      fc.property(
        fc.array(scraps, { maxLength: 14 }),
        fc.constantFrom(undefined, 'a.s1p', 'a.s2p', 'a.s3p'),
        (parts, name) => {
          const reading = readTouchstone(parts.join('\n'), name === undefined ? {} : { name });
          if (reading.ok) expect(reading.file.response.freqHz.length).toBeGreaterThan(0);
          else expect(reading.findings.some(({ severity }) => severity === 'error')).toBe(true);
          for (const { line = 1 } of reading.findings) expect(line).toBeLessThanOrEqual(Math.max(1, parts.length));
        },
      ),
      { seed: 8, numRuns: 500 },
    );
  });
});
