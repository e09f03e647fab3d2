import { describe, expect, it } from 'vitest';
import { wavelength } from './constants.ts';
import { mutualSlotConductance, slotConductance, slotEdgeResistance } from './patch-slots.ts';

const freqHz = 3e9;
const lambda = wavelength(freqHz);

describe('slot conductance', () => {
  it('tends to (W/lambda)^2/90 for a short slot', () => {
    expect(slotConductance(freqHz, 0.01 * lambda) / (0.01 ** 2 / 90)).toBeCloseTo(1, 2);
  });

  it('tends to W/(120 lambda) for a long slot', () => {
    expect(slotConductance(freqHz, 6 * lambda) / (6 / 120)).toBeCloseTo(1, 1);
  });

  it('is shared fully by slots that lie together, and hardly by slots far apart', () => {
    const own = slotConductance(freqHz, 0.4 * lambda);
    const mutual = (length: number) =>
      mutualSlotConductance({ freqHz, widthM: 0.4 * lambda, lengthM: length * lambda });
    expect(mutual(1e-4) / own).toBeCloseTo(1, 6);
    expect(Math.abs(mutual(8) / own)).toBeLessThan(0.1);
  });

  it('says when the patch is too narrow', () => {
    const found = slotEdgeResistance({ freqHz, widthM: 0.2 * lambda, lengthM: 0.5 * lambda });
    expect(found.inRange).toBe(false);
    expect(found.reasons[0]).toContain('width over the length');
  });
});
