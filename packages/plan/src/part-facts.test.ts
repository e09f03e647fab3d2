import type { Part } from '@sheetwave/geometry';
import { expect, it } from 'vitest';
import { numberText } from './number-text.ts';
import { partFacts } from './part-facts.ts';

const size = (part: object) => partFacts(part as Part).size;
const process = { label: 'laser' };

it.each([
  [
    { form: 'plate', sheet: { thicknessMm: 0.5 }, process, outline: { outer: { kind: 'circle', radiusMm: 13.1 } } },
    'diameter 26.2 x 0.5 mm',
  ],
  [
    {
      form: 'board',
      laminate: { thicknessMm: 1.524, copperMm: 0.035 },
      process,
      copper: { top: [1], bottom: [1] },
      outline: { outer: { kind: 'circle', radiusMm: 20 } },
    },
    'diameter 40 x 1.594 mm',
  ],
  [
    { form: 'rod', rod: { diameterMm: 2 }, developedLengthMm: 134.567, bends: [1, 2] },
    'diameter 2 mm, cut 134.57 mm, 2 bends',
  ],
  [{ form: 'rod', rod: { diameterMm: 1 }, developedLengthMm: 12, bends: [] }, 'diameter 1 mm, cut 12 mm'],
  [{ form: 'tube', tube: { outerMm: 4, boreMm: 2.1 }, lengthMm: 13 }, 'outside 4 mm, bore 2.1 mm, length 13 mm'],
  [{ form: 'bought', item: { kind: 'screw', thread: 'M3', lengthMm: 6 } }, 'M3 x 6 mm'],
  [{ form: 'bought', item: { kind: 'spacer', thread: 'M3', bodyMm: 6 } }, 'M3, body 6 mm'],
  [{ form: 'bought', item: { kind: 'nut', thread: 'M3' } }, 'M3'],
  [{ form: 'bought', item: { kind: 'coax' }, lengthMm: 300 }, 'length 300 mm'],
])('size of %o', (part, expected) => {
  expect(size(part)).toBe(expected);
});

it.each([
  [1.5, 2, '1.5'],
  [100, 2, '100'],
  [0, 2, '0'],
  [-0.001, 2, '0'],
  [1e-9, 3, '0'],
  [27.296, 2, '27.3'],
  [1200, 0, '1200'],
])('number %f with %i decimals reads %s', (value, digits, expected) => {
  expect(numberText(value, digits)).toBe(expected);
});
