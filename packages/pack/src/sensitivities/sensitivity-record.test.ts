import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readSensitivities, type SensitivityRecord, sensitivitiesText } from './sensitivity-record.ts';

const request = { feed: 'as-built', quality: 'draft', twoMeshes: false, points: 3 } as const;
// JSON has no minus zero.
const number = fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => (value === 0 ? 0 : value));
const row = (path: string) =>
  fc.record({
    path: fc.constant(path),
    words: fc.string(),
    setBy: fc.constantFrom('cut', 'open', 'drill', 'spacer', 'bend', 'stock'),
    unit: fc.constantFrom('mm', ''),
    nominal: number,
    step: number,
    mhzPerTenthMm: number,
    dbPerTenthMm: number,
    resonances: fc.array(fc.record({ freqHz: number, mhzPerTenthMm: number }), { maxLength: 2 }),
    bend: number,
    halfStep: fc.option(number, { nil: undefined }),
  });
const record: fc.Arbitrary<SensitivityRecord> = fc.record({
  key: fc.string(),
  request: fc.constant(request),
  sensitivities: fc.tuple(row('a'), row('b')) as fc.Arbitrary<SensitivityRecord['sensitivities']>,
});

test('a record comes back as it was, to the last bit, whatever stands beside it', () => {
  fc.assert(
    fc.property(record, (one) => {
      expect(readSensitivities(sensitivitiesText(one, { ok: true, model: {} }))).toEqual(one);
    }),
  );
});

test('one without a field, with a word for a number, or with a path twice is none', () => {
  const [one] = fc.sample(record, 1);
  const whole = JSON.parse(sensitivitiesText(one as SensitivityRecord));
  expect(readSensitivities(JSON.stringify(whole))).toBeDefined();
  for (const name of Object.keys(whole)) {
    const { [name]: _, ...rest } = whole;
    expect(readSensitivities(JSON.stringify(rest))).toBeUndefined();
  }
  const [first, second] = whole.sensitivities;
  for (const name of Object.keys(first)) {
    const spoilt = { ...whole, sensitivities: [{ ...first, [name]: name === 'words' ? 1 : 'x' }, second] };
    if (name !== 'path') expect(readSensitivities(JSON.stringify(spoilt)), name).toBeUndefined();
  }
  expect(readSensitivities(JSON.stringify({ ...whole, sensitivities: [first, first] }))).toBeUndefined();
  for (const text of ['', '{', 'null', '[]', '{"format":1}']) expect(readSensitivities(text)).toBeUndefined();
});
