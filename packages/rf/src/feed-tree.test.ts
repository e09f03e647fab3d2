import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { angle, type Complex, complex, magnitude, subtract } from './complex.ts';
import { type FeedNode, parallel, treeDelivered, treeInputImpedance } from './feed-tree.ts';
import { propagationConstant } from './line.ts';
import { cascade, inputImpedance, lineTwoPort, seriesTwoPort, shuntTwoPort } from './two-port.ts';

const f0 = 5.5e9;
const quarter = 299792458 / f0 / 4;
const lossless = (freqHz: number): Complex => propagationConstant({ effectivePermittivity: 1, attenuation: 0 }, freqHz);
const load = (re: number, im = 0): FeedNode => ({ kind: 'load', impedance: () => complex(re, im) });
const line = (z0Ohm: number, lengthM: number, child: FeedNode, attenuation = 0): FeedNode => ({
  kind: 'line',
  z0Ohm,
  lengthM,
  gamma: (f) => propagationConstant({ effectivePermittivity: 1, attenuation }, f),
  child,
});
const close = (a: Complex, b: Complex, within = 1e-9) =>
  expect(magnitude(subtract(a, b))).toBeLessThan(within * (1 + magnitude(b)));

describe('feed tree', () => {
  it('turns a load round by a quarter wave', () => {
    close(treeInputImpedance(line(70.71, quarter, load(100)), f0), complex(70.71 ** 2 / 100));
  });

  it('halves on a junction and repeats after half a wave', () => {
    const pair: FeedNode = { kind: 'junction', children: [load(100), line(50, 2 * quarter, load(100))] };
    close(treeInputImpedance(pair, f0), complex(50));
  });

  it('follows Z0 tanh: a short of a quarter wave is open, one of an eighth is j Z0', () => {
    close(treeInputImpedance(line(50, quarter / 2, load(0)), f0), complex(0, 50));
    expect(magnitude(treeInputImpedance(line(50, quarter, load(0)), f0))).toBeGreaterThan(1e12);
  });

  it('swallows the load behind a long lossy line', () => {
    close(treeInputImpedance(line(75, 10, load(20, 30), 1), f0), complex(75), 1e-6);
  });

  it('delivers all of the accepted power without loss, whatever the loads', () => {
    const ohms = fc.double({ min: 5, max: 300, noNaN: true });
    const length = fc.double({ min: 0, max: 0.1, noNaN: true });
    fc.assert(
      fc.property(ohms, ohms, length, length, (a, b, near, far) => {
        const tree = line(60, near, { kind: 'junction', children: [line(90, far, load(a, b - 100)), load(b, a - 50)] });
        const sum = treeDelivered(tree, f0).reduce((total, { share }) => total + share, 0);
        expect(sum).toBeCloseTo(1, 9);
      }),
      { seed: 17 },
    );
  });

  it('loses exp(-2 alpha l) on a matched line and arrives late by its length', () => {
    const [only] = treeDelivered(line(50, quarter, load(50), 0.5), f0);
    expect(only?.share).toBeCloseTo(Math.exp(-2 * 0.5 * quarter), 9);
    expect(angle(only?.voltage ?? complex(0))).toBeCloseTo(-Math.PI / 2, 9);
  });

  it('refuses a junction of nothing', () => {
    expect(() => parallel([])).toThrow(RangeError);
  });
});

describe('two-ports', () => {
  it('cascade as lengths add', () => {
    const section = { z0Ohm: 80, gamma: complex(0.3, lossless(f0).im) };
    const whole = lineTwoPort({ ...section, lengthM: 0.05 });
    const parts = cascade(lineTwoPort({ ...section, lengthM: 0.02 }), lineTwoPort({ ...section, lengthM: 0.03 }));
    close(inputImpedance(parts, complex(33, -12)), inputImpedance(whole, complex(33, -12)));
  });

  it('put impedances in series and admittances across', () => {
    const port = cascade(seriesTwoPort(complex(10, 5)), shuntTwoPort(complex(0.01)));
    close(inputImpedance(port, complex(100)), complex(60, 5));
  });
});
