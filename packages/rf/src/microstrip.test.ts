import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { surfaceResistance } from './conductor.ts';
import { decibelsPerMetre, guidedWavelength, propagationConstant } from './line.ts';
import { airStripLineImpedance, lossyStripLine, stripImpedance, stripLine, stripWidth } from './microstrip.ts';
import { stripConductorAttenuation } from './strip-loss.ts';

const board = { heightM: 1.6e-3, thicknessM: 35e-6, permittivity: 4.3 };

describe('strip over a plane', () => {
  it('gives the width back from the impedance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 20, noNaN: true }),
        fc.double({ min: 1, max: 10, noNaN: true }),
        (ratio, permittivity) => {
          const section = { ...board, permittivity, widthM: ratio * board.heightM };
          const z0Ohm = stripLine(section, 2.45e9).z0Ohm;
          expect(stripWidth({ ...board, permittivity, z0Ohm, freqHz: 2.45e9 }).value / section.widthM).toBeCloseTo(
            1,
            8,
          );
        },
      ),
      { seed: 13 },
    );
  });

  it('has a lower impedance when wider, and an effective permittivity between both media', () => {
    let before = Number.POSITIVE_INFINITY;
    for (let widthM = 0.3e-3; widthM < 30e-3; widthM *= 1.2) {
      const line = stripLine({ ...board, widthM }, 5.5e9);
      expect(line.z0Ohm).toBeLessThan(before);
      expect(line.effectivePermittivity).toBeGreaterThan(2.65);
      expect(line.effectivePermittivity).toBeLessThan(4.3);
      before = line.z0Ohm;
    }
  });

  it('does not disperse in air', () => {
    const strip = { widthM: 5e-3, heightM: 2e-3, thicknessM: 0.5e-3 };
    expect(stripImpedance({ ...strip, permittivity: 1 }, 5.5e9).value).toBeCloseTo(
      airStripLineImpedance(strip).value,
      9,
    );
  });

  it('names the reachable impedances', () => {
    expect(() => stripWidth({ ...board, z0Ohm: 900, freqHz: 1e9 })).toThrow(/z0Ohm must be from/);
  });

  it('says when the strip is too thick or too narrow', () => {
    const { inRange, reasons } = airStripLineImpedance({ widthM: 0.1e-3, heightM: 2e-3, thicknessM: 1.5e-3 });
    expect(inRange).toBe(false);
    expect(reasons).toHaveLength(2);
  });
});

describe('loss of a strip', () => {
  it('loses about 16.9 dB/m in FR-4 at 50 ohm and 5.5 GHz (27.3 er (ee - 1) tan(delta)/(sqrt(ee) (er - 1) lambda), by hand)', () => {
    const line = lossyStripLine({ ...board, widthM: 3e-3 }, 5.5e9, { lossTangent: 0.02, surfaceOhm: 0 });
    expect(decibelsPerMetre(line.attenuation)).toBeCloseTo(16.9, 0);
  });

  it('loses less in metal than evenly spread current would, Rs/(Z0 W)', () => {
    const section = { ...board, widthM: 3e-3 };
    const surfaceOhm = surfaceResistance(5.5e9, 58e6);
    const line = lossyStripLine(section, 5.5e9, { lossTangent: 0, surfaceOhm });
    expect(line.attenuation).toBeLessThan(surfaceOhm / (line.z0Ohm * section.widthM));
    expect(line.attenuation).toBeGreaterThan((0.5 * surfaceOhm) / (line.z0Ohm * section.widthM));
  });

  it('tends to Rs/(Z0 W) for a wide strip', () => {
    const wide = { widthM: 0.4, heightM: 2e-3, thicknessM: 0.5e-3, permittivity: 1 };
    const { z0Ohm } = stripLine(wide, 0);
    expect((stripConductorAttenuation(wide, { z0Ohm, surfaceOhm: 0.03 }) * z0Ohm * 0.4) / 0.03).toBeCloseTo(1, 1);
  });
});

describe('waves on a line', () => {
  it('turns by a full circle in a guided wavelength', () => {
    const gamma = propagationConstant({ effectivePermittivity: 3.3, attenuation: 0.1 }, 2.45e9);
    expect(gamma.re).toBe(0.1);
    expect(gamma.im * guidedWavelength(2.45e9, 3.3)).toBeCloseTo(2 * Math.PI, 12);
  });
});
