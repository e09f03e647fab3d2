import { describe, expect, it } from 'vitest';
import { sideLobe } from './pattern.ts';

const DEGREE = Math.PI / 180;

/** A cut through a whole circle, 1 degree apart, from the level at each angle in degrees. */
const circle = (dbiAt: (degrees: number) => number) => {
  const degrees = Array.from({ length: 361 }, (_, n) => n - 180);
  return { angle: degrees.map((one) => one * DEGREE), dbi: degrees.map(dbiAt) };
};

/** A lobe by hand: a parabola of this top, in dB. */
const hump = (degrees: number, { at, top, width }: { at: number; top: number; width: number }) =>
  top - 3 * ((degrees - at) / width) ** 2;

describe('side lobes of a cut', () => {
  it('of a row of four in-phase sources half a wavelength apart: 11.3 dB below the beam', () => {
    // sin(4 psi/2)/(4 sin(psi/2)), psi = pi sin(theta): largest beside the main beam at tan(4 x) = 4 tan(x), 4 x = 4.27: 0.2722, or
    // 11.30 dB (C. A. Balanis, Antenna Theory, section 6.3; solved by hand). In front and behind the row is the same: a screen
    // that lets 1 % through parts the two.
    const row = circle((degrees) => {
      const half = (Math.PI / 2) * Math.sin(degrees * DEGREE);
      const array = Math.abs(half) < 1e-9 ? 1 : Math.sin(4 * half) / (4 * Math.sin(half));
      const screen = Math.abs(degrees) <= 90 ? 1 : 0.1;
      return 20 * Math.log10(Math.max(1e-3, Math.abs(screen * array)));
    });
    expect(sideLobe(row)).toBeCloseTo(11.3, 1);
  });

  it('are not the ripples of a flat beam', () => {
    const flat = circle((degrees) => {
      const beam = -20 * (1 - Math.cos(degrees * DEGREE)) ** 2;
      return beam + 0.4 * Math.cos(degrees * 20 * DEGREE);
    });
    expect(sideLobe(flat)).toBeUndefined();
  });

  it.each([
    [2.9, undefined],
    [3.1, 10],
  ])('are parted from the beam by a dip of 3 dB: with one of %d dB', (dip, expected) => {
    // A beam at 0, a lobe 10 dB lower at 60 degrees, and between them a floor this far below the lobe.
    const cut = circle((degrees) =>
      Math.max(
        hump(degrees, { at: 0, top: 0, width: 10 }),
        hump(degrees, { at: 60, top: -10, width: 5 }),
        degrees > 0 && degrees < 60 ? -10 - dip : -40,
      ),
    );
    expect(sideLobe(cut)).toEqual(expected);
  });

  it('reach round the back: a beam across 180 degrees is one beam', () => {
    const back = circle((degrees) => hump(180 - Math.abs(degrees), { at: 0, top: 5, width: 20 }));
    expect(sideLobe(back)).toBeUndefined();
  });

  it('over a plane of metal end at the horizon', () => {
    const degrees = Array.from({ length: 181 }, (_, n) => n - 90);
    const dbi = degrees.map((one) =>
      Math.max(hump(one, { at: 0, top: 8, width: 20 }), hump(one, { at: -90, top: -6, width: 8 })),
    );
    expect(sideLobe({ angle: degrees.map((one) => one * DEGREE), dbi })).toBeCloseTo(14, 9);
  });
});
