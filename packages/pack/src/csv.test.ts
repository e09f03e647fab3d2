import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvText } from './csv.ts';

/** A reader written from RFC 4180, section 2, and its grammar; it throws on anything the grammar does not allow. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [];
  let at = 0;
  while (at < text.length) {
    const row: string[] = [];
    for (;;) {
      const match = /^(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/.exec(text.slice(at));
      if (match === null) throw new Error(`not RFC 4180 at ${at}: ${JSON.stringify(text.slice(at, at + 20))}`);
      row.push(match[1]?.replaceAll('""', '"') ?? match[2] ?? '');
      at += match[0].length;
      if (match[3] !== ',') break;
    }
    rows.push(row);
  }
  return rows;
}

describe('parts list as RFC 4180 text (source: RFC 4180, section 2; memory)', () => {
  it('quotes commas, quotes and line breaks, and ends lines in CR LF', () => {
    expect(
      csvText([
        ['a', 'b,c', 'd "e"'],
        ['f\r\ng', 2, 0.5],
      ]),
    ).toBe('a,"b,c","d ""e"""\r\n"f\r\ng",2,0.5\r\n');
  });

  it('gives back every text to a reader of the grammar', () => {
    const unit = fc.constantFrom('a', 'Ø', ' ', ',', '"', '\r\n', "'", ';', '=');
    const cell = fc.string({ unit }).map((text) => `x${text}`);
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1 }), (rows) => {
        expect(readCsv(csvText(rows))).toEqual(rows);
      }),
      { seed: 41801 },
    );
  });

  // Source: the usual advice against formula injection in exported tables; common practice, no source.
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\r=1', '  =HYPERLINK("a")'])(
    'keeps %j from being a formula',
    (text) => {
      const [row] = readCsv(csvText([['id', text]]));
      expect(row?.[1]?.startsWith("'")).toBe(true);
      expect(row?.[1]?.slice(1)).toBe(text);
    },
  );

  it('leaves a negative number a number', () => {
    expect(csvText([[-2.5]])).toBe('-2.5\r\n');
  });

  it('throws on a number that is none', () => {
    expect(() => csvText([[Number.NaN]])).toThrow(/finite/);
  });
});
