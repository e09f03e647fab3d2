/**
 * Two ports. Reciprocity (law: H. A. Lorentz): what port 1 hears of port 2 is what port 2 hears of port 1. Mutual impedance of two
 * parallel half-wave dipoles half a wave apart: -12.5 - j29.9 ohm (P. S. Carter, Proc. IRE 20 (1932) 1004, exact for
 * thin wires with a sinusoidal current; Balanis, section 8.6).
 */
import { SPEED_OF_LIGHT } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';
import { sceneOf, solveFast } from './solve-fast.ts';

const FREQ = 1e9;
const WAVE = SPEED_OF_LIGHT / FREQ;

const dipoleAt = (x: number, name: string) => {
  const [gap, radius] = [WAVE / 60, WAVE / 5000];
  return {
    wires: [
      { name: `${name} upper`, from: [x, 0, gap / 2], to: [x, 0, WAVE / 4], radius },
      { name: `${name} lower`, from: [x, 0, -WAVE / 4], to: [x, 0, -gap / 2], radius },
    ] as const,
    port: { name, from: [x, 0, -gap / 2], to: [x, 0, gap / 2], resistance: 73, radius } as const,
  };
};

describe('two parallel dipoles half a wave apart', () => {
  const [a, b] = [dipoleAt(0, 'a'), dipoleAt(WAVE / 2, 'b')];
  const scene = sceneOf({ wires: [...a.wires, ...b.wires], ports: [a.port, b.port] });

  it('hear each other alike, as much as theory says', async () => {
    const { s } = await solveFast(scene, {
      band: { low: 0.8e9, high: 1.2e9 },
      quality: 'draft',
      freqHz: [0.9e9, FREQ],
    });
    for (const matrix of s) {
      const [there, back] = [matrix[1]?.[0], matrix[0]?.[1]];
      expect(there?.re).toBeCloseTo(back?.re ?? Number.NaN, 4);
      expect(there?.im).toBeCloseTo(back?.im ?? Number.NaN, 4);
    }
    // Z21 of a symmetric pair: 2 R s21 / ((1 - s11)^2 - s21^2).
    const [s11, s21] = [s[1]?.[0]?.[0] ?? { re: 9, im: 9 }, s[1]?.[1]?.[0] ?? { re: 9, im: 9 }];
    const square = ({ re, im }: { re: number; im: number }) => ({ re: re * re - im * im, im: 2 * re * im });
    const [p, q] = [square({ re: 1 - s11.re, im: -s11.im }), square(s21)];
    const below = { re: p.re - q.re, im: p.im - q.im };
    const size = below.re ** 2 + below.im ** 2;
    const mutual = {
      re: (2 * 73 * (s21.re * below.re + s21.im * below.im)) / size,
      im: (2 * 73 * (s21.im * below.re - s21.re * below.im)) / size,
    };
    // The current of wires with a thickness differs from a sine, by a part that shrinks as slowly as 1/ln(length/radius).
    expect(Math.abs(mutual.re + 12.5)).toBeLessThan(6);
    expect(Math.abs(mutual.im + 29.9)).toBeLessThan(5);
  });
});
