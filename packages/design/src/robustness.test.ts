import fc from 'fast-check';
import { expect, it } from 'vitest';
import { validFiles } from '../testing/files.ts';
import { readDesign } from './read-design.ts';
import { renderFinding } from './render-finding.ts';

/** A reading is a design without errors or errors without a design, and every finding can be worded. */
function expectSound(text: string): void {
  const { design, findings } = readDesign(text);
  const errors = findings.filter((finding) => finding.severity === 'error');
  expect(design === undefined).toBe(errors.length > 0);
  for (const finding of findings) {
    expect(renderFinding(finding, { file: 'a.toml' })).toMatch(/^a\.toml[:\d]*: .+; .+$/su);
    expect(finding.line ?? 1).toBeGreaterThan(0);
    expect(finding.line ?? 1).toBeLessThanOrEqual(text.split('\n').length);
  }
}

const file = fc.constantFrom(...Object.values(validFiles));

it('takes any text', () => {
  fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 300 }), expectSound), { seed: 21, numRuns: 500 });
});

it('takes TOML-like text', () => {
  const piece = fc.constantFrom(
    '[',
    ']',
    '"',
    "'",
    '{',
    '}',
    '=',
    '.',
    ',',
    '#',
    '\n',
    'layer',
    'name',
    '1',
    '-',
    '__proto__',
    '"6 mm"',
  );
  const text = fc.array(piece, { maxLength: 40 }).map((pieces) => pieces.join(''));
  fc.assert(fc.property(text, expectSound), { seed: 22, numRuns: 2000 });
});

it('takes valid files with a stretch cut out or replaced', () => {
  const change = fc.record({ file, at: fc.nat(2000), cut: fc.nat(30), put: fc.string({ maxLength: 6 }) });
  fc.assert(
    fc.property(change, ({ file: text, at, cut, put }) => {
      const from = at % text.length;
      expectSound(text.slice(0, from) + put + text.slice(from + cut));
    }),
    { seed: 23, numRuns: 1500 },
  );
});

it('takes valid files with a value replaced', () => {
  const value = fc.constantFrom(
    ...[
      '-1',
      '0',
      'inf',
      'nan',
      '1e300',
      'true',
      '""',
      '"0 mm"',
      '"-5 mm"',
      '"1e9 GHz"',
      '[]',
      '{}',
      '[[1]]',
      '2026-05-17',
      '"none"',
    ],
    ...['"__proto__"', '"constructor"', '{ __proto__ = 1 }', '"toString"', '9007199254740993'],
  );
  fc.assert(
    fc.property(file, fc.nat(200), value, (text, nth, put) => {
      const lines = text.split('\n');
      const withValues = lines.flatMap((line, index) => (line.includes(' = ') ? [index] : []));
      const line = withValues[nth % withValues.length] ?? 0;
      expectSound(lines.map((each, index) => (index === line ? `${each.split(' = ')[0]} = ${put}` : each)).join('\n'));
    }),
    { seed: 24, numRuns: 1500 },
  );
});

it('takes valid files with lines left out or doubled', () => {
  fc.assert(
    fc.property(file, fc.nat(200), fc.boolean(), (text, nth, twice) => {
      const lines = text.split('\n');
      const line = nth % lines.length;
      expectSound(lines.flatMap((each, index) => (index === line ? (twice ? [each, each] : []) : [each])).join('\n'));
    }),
    { seed: 25, numRuns: 600 },
  );
});

it('takes deep nesting', () => {
  expectSound(`a = ${'['.repeat(50_000)}`);
  expectSound(`a = ${'['.repeat(50_000)}${']'.repeat(50_000)}`);
  expectSound(`a${'.a'.repeat(50_000)} = 1`);
});
