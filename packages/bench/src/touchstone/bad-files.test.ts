import { renderFinding } from '@sheetwave/design';
import { describe, expect, it } from 'vitest';
import { readTouchstone } from './read-touchstone.ts';
import { createTouchstoneReader } from './touchstone-reader.ts';

const HEAD = '! sweep\n# MHz S RI R 50\n';

/** What the user is told, the first error first. */
function told(content: string | Uint8Array, name?: string): string {
  const reading = readTouchstone(content, name === undefined ? {} : { name });
  expect(reading.ok).toBe(false);
  const [first] = reading.findings.filter(({ severity }) => severity === 'error');
  return first === undefined ? '' : renderFinding(first);
}

describe('a file that is broken', () => {
  it('by a frequency that does not rise, in its line', () => {
    expect(told(`${HEAD}100 0 0\n90 0 0\n`)).toMatch(
      /^line 4: 90 is below the frequency of the row before; keep one sweep/,
    );
    expect(told(`${HEAD}100 0 0\n100 0 0\n`)).toMatch(/^line 4: 100 is the frequency of the row before/);
    expect(told(`${HEAD}-5 0 0\n`)).toMatch(/^line 3: -5 is below 0/);
  });

  it('by what is no value', () => {
    expect(told(`${HEAD}100 NaN 0\n`)).toMatch(/^line 3, column 5: NaN is no measured value; sweep again/);
    expect(told(`${HEAD}100 -1.#IND 0\n`)).toMatch(/no measured value/);
    expect(told(`${HEAD}100 0,5 0\n`)).toMatch(/^line 3, column 5: 0,5 has a comma; write decimal points/);
    expect(told(`${HEAD}100 0x1F 0\n`)).toMatch(/0x1F is not a number/);
    expect(told(`${HEAD}100 1e999 0\n`)).toMatch(/1e999 is not a number/);
  });

  it('by being cut off', () => {
    expect(told(`${HEAD}100 0 0\n200 0.1`)).toMatch(
      /^line 4: 2 numbers of the 3 for one frequency are there, and the file/,
    );
    expect(told(`${HEAD}100 0 0 0 0 0 0`, 'a.s2p')).toMatch(/^line 3: 7 numbers of the 9 for one frequency/);
    const two =
      '[Version] 2.0\n# MHz S RI\n[Number of Ports] 1\n[Number of Frequencies] 3\n[Network Data]\n100 0 0\n200 0 0\n';
    expect(told(two)).toMatch(/^line 7: 2 frequencies where \[Number of Frequencies\] says 3; .*cut off/);
    expect(told('')).toMatch(/no frequency in the file; save the sweep again/);
    expect(told(HEAD)).toMatch(/no frequency in the file/);
  });

  it('by being no text', () => {
    expect(told(new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 0x1a, 10, 0, 0, 0, 13]))).toMatch(
      /not an ASCII|no text has/,
    );
    expect(told(new Uint8Array([0x50, 0x4b, 3, 4, 20, 0, 0, 0]))).toMatch(/^line 1: bytes that no text has; .*zip/);
    // Saved as UTF-16.
    expect(told(new Uint8Array([...'# MHz\n'].flatMap((char) => [char.charCodeAt(0), 0])))).toMatch(
      /bytes that no text has/,
    );
    expect(told(`${HEAD}100 0° 0\n`)).toMatch(/^line 3, column 6: ° is not an ASCII character/);
  });

  it('by another number of ports than its name says', () => {
    const twoPort = `${HEAD}100 0 0 0 0 0 0 0 0\n200 0 0 0 0 0 0 0 0\n`;
    expect(told(twoPort, 'a.s1p')).toMatch(
      /^line 3: 9 numbers at the first frequency make 2 ports, and the name of the file says 1; rename it to end in \.s2p/,
    );
    expect(told(`${HEAD}100 0 0\n200 0 0\n`, 'a.S2P')).toMatch(/make 1 port, and the name of the file says 2/);
    expect(told(`${HEAD}100 0 0 0\n`)).toMatch(/^line 3: 4 numbers at the first frequency make no whole matrix/);
    expect(told(`${HEAD}100 0 0\n200 0 0 0 0\n`)).toMatch(/^line 4: 5 numbers stand for one frequency where 3 belong/);
  });

  it('by its option line', () => {
    expect(told('100 0 0\n')).toMatch(/^line 1: 100 0 0 comes before the option line; put a line like/);
    expect(told('# THz S RI R 50\n1 0 0\n')).toMatch(/^line 1: THz is not a word of the option line/);
    expect(told('# MHz GHz\n1 0 0\n')).toMatch(/GHz stands beside another of its kind/);
    expect(told('# MHz R\n1 0 0\n')).toMatch(/^line 1: R gives no impedance above 0 ohm/);
    expect(told('# MHz R 0\n1 0 0\n')).toMatch(/^line 1: R 0 gives no impedance/);
    expect(told('# MHz R 50 75\n1 0 0\n')).toMatch(/^line 2: 2 reference impedances stand for 1 port/);
    expect(told('# MHz H\n1 0 0\n')).toMatch(/H parameters exist for two ports only/);
  });

  it('by its keywords', () => {
    expect(told('# MHz\n[Number of Ports] 1\n')).toMatch(
      /^line 2: \[Number of Ports\] stands in a file without \[Version\]/,
    );
    expect(told('[Version] 3.0\n')).toMatch(/^line 1: 3\.0 is not one of 2\.0, 2\.1/);
    expect(told('[Version] 2.0\n[Number of Prots] 1\n')).toMatch(/did you mean \[Number of Ports\]/);
    expect(told('[Version] 2.0\n[Number of Ports] 0\n')).toMatch(/^line 2: 0 is not a whole number of ports/);
    expect(told('[Version] 2.0\n[Mixed-Mode Order] D2,3 C2,3\n')).toMatch(/mixed-mode parameters; save single-ended/);
    expect(told('[Version] 2.0\n# MHz\n[Number of Ports] 2\n[Network Data]\n1 0 0 0 0 0 0 0 0\n')).toMatch(
      /no \[Two-Port Data Order\]/,
    );
    expect(
      told('[Version] 2.0\n# MHz\n[Number of Ports] 2\n[Reference] 50\n[Two-Port Data Order] 12_21\n[Network Data]\n'),
    ).toMatch(/1 reference impedances stand for 2 ports/);
    expect(told('[Version] 2.0\n# MHz\n[Number of Ports] 1\n1 0 0\n')).toMatch(
      /^line 4: 1 0 0 stands before \[Network Data\]/,
    );
  });

  it('tells ten errors and then leaves off', () => {
    const reading = readTouchstone(HEAD + Array.from({ length: 50 }, (_, i) => `${i + 1} x 0\n`).join(''));
    expect(reading.findings.filter(({ severity }) => severity === 'error')).toHaveLength(10);
    expect(reading.findings.at(-1)?.code).toBe('more-errors');
  });
});

describe('a file that is huge', () => {
  it('is left alone once it holds more than memory is meant for', () => {
    const reader = createTouchstoneReader({ mostPairs: 1000 });
    reader.push(HEAD);
    let row = 0;
    while (reader.push(`${row + 1} 0 0\n`) && row < 5000) row++;
    expect(row).toBe(1000);
    const [finding] = reader.end().findings;
    expect(finding === undefined ? '' : renderFinding(finding)).toBe(
      'line 1003: more than 1000 frequencies hold more than the 1,000 pairs of numbers that are read; sweep with fewer points, or only the band',
    );
  });

  it('or has no line breaks', () => {
    const reader = createTouchstoneReader();
    const piece = '1 '.repeat(50_000);
    let pieces = 0;
    while (reader.push(piece) && pieces < 100) pieces++;
    expect(pieces).toBeLessThan(12);
    expect(reader.end().findings[0]?.code).toBe('line-too-long');
  });
});
