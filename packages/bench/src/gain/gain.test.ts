import { describe, expect, it } from 'vitest';
import { errorBudget } from './budget.ts';
import { distanceCheck } from './distance.ts';
import { gainBySubstitution, gainOfThree, gainOnLink } from './methods.ts';
import { mismatchBounds } from './mismatch.ts';

const HZ = 5.5e9;
const setting = { freqHz: HZ, distanceM: 10, largestM: 0.2 };

describe('mismatch bounds', () => {
  // Tables of mismatch uncertainty, VSWR against VSWR: 20 log10(1 -+ product) (handbook form; memory). By hand: VSWR 1.5 is |G| = 0.2 and
  // VSWR 2 is 1/3, the product 1/15; 20 log10(15/14) = 0.599, 20 log10(15/16) = -0.561.
  it('are those of the closed form', () => {
    expect(mismatchBounds(0.2, 1 / 3).upDb).toBeCloseTo(0.599, 3);
    expect(mismatchBounds(0.2, 1 / 3).downDb).toBeCloseTo(-0.561, 3);
    expect(mismatchBounds(0, 0.9)).toEqual({ upDb: 0, downDb: 0 });
    expect(() => mismatchBounds(1, 0)).toThrow(RangeError);
  });
});

describe('distance', () => {
  // 0.35 m at 5.5 GHz: 2 x 0.1225 / 0.054508 = 4.495 m; pi/8 at the edges takes 10 log10(e) (4/45)(pi/8)² = 0.0595 dB (computed).
  it('is enough from 2 D²/lambda and ten wavelengths on', () => {
    const at = distanceCheck(4.495, 0.35, HZ);
    expect(at.farFieldM).toBeCloseTo(4.495, 2);
    expect(at.curvatureDb).toBeCloseTo(0.0595, 3);
    expect(distanceCheck(4.6, 0.35, HZ).isEnough).toBe(true);
    expect(distanceCheck(4.3, 0.35, HZ).isEnough).toBe(false);
    // Small antennas: ten wavelengths of 54.5 mm.
    expect(distanceCheck(0.5, 0.02, HZ).isEnough).toBe(false);
  });
});

describe('gain', () => {
  // Friis 1946 by the form of ITU-R P.525-4: 92.45 + 20 log10(5.5) + 20 log10(0.01) = 67.26 dB (confirmed).
  it('is found again from three antennas of 10, 12 and 7 dBi', () => {
    const found = gainOfThree({
      ...setting,
      firstSecondDb: 10 + 12 - 67.26,
      firstThirdDb: 10 + 7 - 67.26,
      secondThirdDb: 12 + 7 - 67.26,
      reflection: 0,
      otherReflections: [0, 0],
    });
    expect(found.gainDbi).toBeCloseTo(10, 2);
  });

  it('is found on a link, with a known far end and with two antennas alike', () => {
    const on = { ...setting, sentDbm: 15, cableDb: 1, reflection: 0 };
    // 15 + 14 + 9 - 67.26 - 1 = -30.26 dBm; alike: 15 + 2 x 11 - 68.26 = -31.26 dBm.
    expect(gainOnLink({ ...on, levelDbm: -30.26, farGainDbi: 9 }).gainDbi).toBeCloseTo(14, 2);
    expect(gainOnLink({ ...on, levelDbm: -31.26, farGainDbi: undefined }).gainDbi).toBeCloseTo(11, 2);
  });

  it('by substitution takes out mismatch and cables', () => {
    const found = gainBySubstitution({
      ...setting,
      levelDb: -40,
      knownLevelDb: -42,
      knownGainDbi: 10,
      extraCableDb: 0.5,
      reflection: 1 / 3,
      knownReflection: 0.2,
    });
    // Mismatch losses 0.512 dB at VSWR 2 and 0.177 dB at VSWR 1.5 (handbook table; confirmed): 10 - 0.177 + 2 + 0.5 = 12.323, + 0.512.
    expect(found.realisedGainDbi).toBeCloseTo(12.323, 3);
    expect(found.gainDbi).toBeCloseTo(12.834, 2);
  });

  it('has a budget that says where each part is from', () => {
    // 3, 4 and 12: 13 by Pythagoras, twice.
    const total = errorBudget([3, 4, 12].map((db) => ({ name: 'level', db, source: 'given' }) as const)).totalDb;
    expect(total).toBeCloseTo(13, 12);
    expect(() => errorBudget([{ name: 'level', db: -1, source: '' }])).toThrow(RangeError);
    const { budget } = gainOnLink({
      ...setting,
      levelDbm: -30,
      sentDbm: 15,
      farGainDbi: 9,
      reflection: 0.1,
      errorsDb: { ripple: 1.5 },
    });
    expect(budget.parts.find(({ name }) => name === 'ripple')).toEqual({ name: 'ripple', db: 1.5, source: 'as given' });
    expect(budget.parts.map(({ name }) => name)).toEqual([
      'level',
      'sent',
      'known-gain',
      'mismatch',
      'ripple',
      'alignment',
      'distance',
      'cables',
    ]);
  });
});
