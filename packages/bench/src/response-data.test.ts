import { describe, expect, it } from 'vitest';
import { responseOfData } from './response-data.ts';

const RESPONSE = {
  origin: 'prediction',
  method: 'A field solution.',
  error: { frequency: 0.004, origin: 'Two grids.' },
  freqHz: [1e9, 2e9],
  referenceOhm: 50,
  s: [[[{ re: 0.1, im: 0 }]], [[{ re: 0.2, im: 0 }]]],
};

describe('a response in data', () => {
  it('is found by itself, in a prediction, and in what a command prints', () => {
    for (const data of [
      RESPONSE,
      { response: RESPONSE, doubts: [] },
      { ok: true, prediction: { response: RESPONSE } },
    ]) {
      expect(responseOfData(JSON.parse(JSON.stringify(data)))).toEqual(RESPONSE);
    }
  });

  it.each([
    ['nothing', null],
    ['a list', [RESPONSE]],
    ['text', 'response'],
    ['no frequencies', { ...RESPONSE, freqHz: [] }],
    ['frequencies that fall', { ...RESPONSE, freqHz: [2e9, 1e9] }],
    ['a missing matrix', { ...RESPONSE, s: RESPONSE.s.slice(1) }],
    ['no number', { ...RESPONSE, s: [[[{ re: null, im: 0 }]], [[{ re: 0, im: 0 }]]] }],
    ['no reference', { ...RESPONSE, referenceOhm: -50 }],
  ])('is none in %s', (_, data) => {
    expect(responseOfData(data)).toBeUndefined();
  });
});
