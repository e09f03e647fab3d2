import { gainBySubstitution, gainOfThree, gainOnLink } from '@sheetwave/bench';
import { describe, expect, it } from 'vitest';

// Gain from measured levels, held to worked examples of textbooks and to the table of mismatch.

const dBm = (watts: number): number => 10 * Math.log10(1000 * watts);
const dB = (ratio: number): number => 10 * Math.log10(ratio);
const LIGHT = 299_792_458;

describe('Pozar, Microwave Engineering, link of a television satellite', () => {
  // 12.45 GHz, 120 W into an antenna of 34 dB, 39 000 km, an antenna of 33.5 dB: loss 206.2 dB, -87.9 dBm received (confirmed).
  const link = { freqHz: 12.45e9, distanceM: 39e6, largestM: 0.45, sentDbm: dBm(120), farGainDbi: 34, reflection: 0 };

  it('gives the gain of the dish back from the level', () => {
    const { gainDbi, freeSpaceLossDb } = gainOnLink({ ...link, levelDbm: -87.9 });
    expect(Math.abs(freeSpaceLossDb - 206.2)).toBeLessThan(0.05);
    // Level and loss are printed to a tenth.
    expect(Math.abs(gainDbi - 33.5)).toBeLessThan(0.1);
  });

  // 0.457 m at 12.4 GHz: far field from 17.3 m on (same book, section on antennas; confirmed).
  it('and where the far field of such a dish begins', () => {
    const { distance } = gainOnLink({ ...link, freqHz: 12.4e9, largestM: 0.457, levelDbm: -87.9 });
    expect(Math.abs(distance.farFieldM - 17.3)).toBeLessThan(0.05);
  });
});

describe('Balanis, Antenna Theory, example 2.16: two horns 100 wavelengths apart', () => {
  // Directivities of 16 and 20 dB without loss, reflections of 0.1 and 0.2, 2 W sent: 4.777 mW received (memory). The numbers given make
  // 0.99 x 0.96 x (1/400 pi)² x 39.81 x 100 x 2 W = 4.792 mW: the book rounds on the way, by 0.014 dB.
  const freqHz = 10e9;
  const setting = { freqHz, distanceM: (100 * LIGHT) / freqHz, largestM: 0.2 };
  const measured = dB(4.777e-3 / 2);
  const passed = { first: dB(1 - 0.1 ** 2), second: dB(1 - 0.2 ** 2) };
  const loss = 20 * Math.log10(4 * Math.PI * 100);

  it('as a link: the gain of the first from that of the second, its mismatch taken out', () => {
    const { gainDbi, mismatchLossDb } = gainOnLink({
      ...setting,
      levelDbm: dBm(4.777e-3),
      sentDbm: dBm(2),
      farGainDbi: 20 + passed.second,
      reflection: 0.1,
    });
    expect(Math.abs(gainDbi - 16)).toBeLessThan(0.015);
    expect(mismatchLossDb.own).toBeCloseTo(-passed.first, 9);
  });

  it('by substitution: the second in the place of another horn of 16 dB', () => {
    // By hand: two horns of 16 dB and reflection 0.1 in that place pass 32 dB, twice their mismatch, less 20 log10(400 pi) = 61.98 dB.
    const known = 32 + 2 * passed.first - loss;
    const { gainDbi } = gainBySubstitution({
      ...setting,
      levelDb: measured,
      knownLevelDb: known,
      knownGainDbi: 16,
      reflection: 0.2,
      knownReflection: 0.1,
    });
    expect(Math.abs(gainDbi - 20)).toBeLessThan(0.015);
  });

  it('with a third: no gain known', () => {
    // The third is a horn of 16 dB like the first; the pairs by hand as above, the first with the second as printed.
    const { gainDbi } = gainOfThree({
      ...setting,
      firstSecondDb: measured,
      firstThirdDb: 32 + 2 * passed.first - loss,
      secondThirdDb: 36 + passed.first + passed.second - loss,
      reflection: 0.1,
      otherReflections: [0.2, 0.1],
    });
    expect(Math.abs(gainDbi - 16)).toBeLessThan(0.015);
  });
});

describe('the table of mismatch (Pozar, Microwave Engineering, table of VSWR; confirmed)', () => {
  it.each([
    [1.05, 0.0026],
    [1.2, 0.036],
    [1.5, 0.1773],
    [2, 0.5115],
    [3, 1.2494],
    [5, 2.5527],
  ])('VSWR %d takes %d dB off the gain', (vswr, lossDb) => {
    const { gainDbi, realisedGainDbi } = gainOnLink({
      freqHz: 5.5e9,
      distanceM: 10,
      largestM: 0.2,
      levelDbm: -40,
      sentDbm: 15,
      farGainDbi: 9,
      reflection: (vswr - 1) / (vswr + 1),
    });
    expect(gainDbi - realisedGainDbi).toBeCloseTo(lossDb, 4);
  });
});
