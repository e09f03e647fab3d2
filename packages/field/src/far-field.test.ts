import { describe, expect, it } from 'vitest';
import { beamwidth, cutThrough, directionNet, makePattern } from './pattern.ts';
import { transform } from './spectrum.ts';

describe('a pattern', () => {
  // The pattern of a short dipole, |sin theta|: 1.5 = 1.7609 dBi, 90 degrees wide (Balanis, section 4.2; exact).
  const { theta, phi, directions } = directionNet(3, false);
  const fields = directions.map((direction) => ({
    thetaRe: Math.sin(direction.theta),
    thetaIm: 0,
    phiRe: 0,
    phiIm: 0,
  }));
  const pattern = makePattern({ freqHz: 1e9, port: 0, theta, phi, fields });

  it('has the directivity and the width of its shape', () => {
    expect(pattern.directivityDbi).toBeCloseTo(1.7609, 2);
    expect(pattern.peak.theta).toBeCloseTo(Math.PI / 2, 6);
    const wide = cutThrough(pattern, 0);
    const front = { angle: wide.angle.filter((a) => a > 0), dbi: wide.dbi.filter((_, n) => (wide.angle[n] ?? 0) > 0) };
    expect(beamwidth(front)).toBeCloseTo(Math.PI / 2, 1);
  });

  it('over a plane counts the upper half only', () => {
    const net = directionNet(3, true);
    const upper = net.directions.map((d) => ({ thetaRe: Math.sin(d.theta), thetaIm: 0, phiRe: 0, phiIm: 0 }));
    const half = makePattern({ freqHz: 1e9, port: 0, theta: net.theta, phi: net.phi, fields: upper });
    expect(half.directivityDbi).toBeCloseTo(1.7609 + 3.0103, 2);
  });
});

it('a Fourier integral of a Gaussian is a Gaussian', () => {
  const [interval, s] = [1e-11, 3e-10];
  const series = Float64Array.from({ length: 600 }, (_, n) => Math.exp(-((((n + 0.5) * interval - 3e-9) / s) ** 2)));
  for (const freq of [0.2e9, 1e9]) {
    const { re, im } = transform(series, freq, { interval, shift: 0.5 });
    const expected = s * Math.sqrt(Math.PI) * Math.exp(-((Math.PI * freq * s) ** 2));
    expect(Math.hypot(re, im) / expected).toBeCloseTo(1, 6);
  }
});
