import { describe, expect, it } from 'vitest';
import { complex } from './complex.ts';
import { checkedResponse, onePortResponse, sweepFrequencies } from './response.ts';

const response = onePortResponse({
  origin: 'estimate',
  method: 'A resistor.',
  error: { coefficient: 0.01, origin: 'Its tolerance.' },
  freqHz: sweepFrequencies(1e9, 2e9, 3),
  referenceOhm: 50,
  impedance: (f) => complex(f / 2e7),
});

describe('response', () => {
  it('holds the reflection at every frequency', () => {
    expect(response.freqHz).toEqual([1e9, 1.5e9, 2e9]);
    expect(response.s.map((m) => m[0]?.[0]?.re)).toEqual([0, 0.2, 1 / 3]);
  });

  it('survives text and back', () => {
    expect(JSON.parse(JSON.stringify(response))).toEqual(response);
  });

  it('refuses frequencies that do not rise and lists of other lengths', () => {
    expect(() => checkedResponse({ ...response, freqHz: [1e9, 1e9, 2e9] })).toThrow(/freqHz\[1\]/);
    expect(() => checkedResponse({ ...response, s: response.s.slice(1) })).toThrow(/s must have 3/);
    expect(() => checkedResponse({ ...response, gainDbi: [8] })).toThrow(/gainDbi/);
    expect(() => checkedResponse({ ...response, s: [[[complex(0)]], [], [[complex(0)]]] })).toThrow(/s\[1\]/);
  });

  it('refuses a sweep without width', () => {
    expect(() => sweepFrequencies(2e9, 2e9, 3)).toThrow(/highHz/);
    expect(() => sweepFrequencies(1e9, 2e9, 1)).toThrow(/count/);
  });
});
