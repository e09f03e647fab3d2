import { describe, expect, it } from 'vitest';
import { partMassKg } from './mass.ts';
import { measure } from './measure.ts';
import { assemblyOf, etchedArray, rodArray, stripArray } from './testing/designs.ts';

const reading = (readings: ReturnType<typeof measure>, part: string, what: string) =>
  readings.filter((r) => r.part === part && r.what === what).map((r) => [r.valueMm, r.count]);

describe('what a caliper reads', () => {
  const readings = measure(assemblyOf(rodArray));

  it('is what the design asks for on the patches', () => {
    expect(reading(readings, 'patch-driven', 'width')).toEqual([[26, 1]]);
    expect(reading(readings, 'patch-driven', 'height')).toEqual([[20, 1]]);
    expect(reading(readings, 'patch-driven', 'thickness')).toEqual([[0.5, 1]]);
    expect(reading(readings, 'patch-driven', 'feed hole diameter')).toEqual([[1.7, 1]]);
    // The feed lies 4 mm from the lower edge, on the centre line.
    expect(reading(readings, 'patch-driven', 'feed hole 2 from left edge')).toEqual([[13, 1]]);
    expect(reading(readings, 'patch-driven', 'feed hole 2 from bottom edge')).toEqual([[4, 1]]);
    expect(reading(readings, 'patch-parasitic', 'diameter')).toEqual([[16, 1]]);
  });

  it('adds up the stack: 5 mm spacer, 0.5 mm sheet, 6 mm spacer, 0.5 mm sheet', () => {
    expect(reading(readings, 'patch-driven', 'underside over reflector')).toEqual([[5, 4]]);
    expect(reading(readings, 'patch-parasitic', 'underside over reflector')).toEqual([[11.5, 4]]);
    expect(reading(readings, 'patch-parasitic', 'top over reflector')).toEqual([[12, 4]]);
  });

  it('gives the pitch, and the fixing holes of the reflector half a pitch from its middle', () => {
    expect(reading(readings, 'antenna', 'pitch between columns')).toEqual([[44, 2]]);
    expect(reading(readings, 'antenna', 'pitch between rows')).toEqual([[40, 2]]);
    const [[width = 0] = []] = reading(readings, 'reflector', 'width');
    const fixing = readings.filter((r) => r.part === 'reflector' && /^fixing hole \d+ from left/.test(r.what));
    expect(fixing.map((r) => r.valueMm - width / 2)).toEqual([-22, 22, -22, 22]);
  });

  it('reads rods: diameter and legs', () => {
    expect(reading(readings, 'rod-level-1', 'diameter')).toEqual([[1.5, 1]]);
    const legs = readings.filter((r) => r.part === 'rod-level-1' && r.what.startsWith('leg'));
    // Probes rise from the axis at 2.1 mm to 0.5 mm above the patch at 5.5 mm.
    expect(legs.at(0)?.valueMm).toBeCloseTo(3.9, 9);
    expect(legs.at(-1)?.valueMm).toBeCloseTo(3.9, 9);
  });

  it('reads boards with their copper, and strips', () => {
    const board = measure(assemblyOf(etchedArray));
    expect(reading(board, 'reflector', 'width')).toEqual([[100, 1]]);
    expect(reading(board, 'reflector', 'thickness')[0]?.[0]).toBeCloseTo(0.787 + 2 * 0.035, 9);
    const strip = measure(assemblyOf(stripArray));
    expect(reading(strip, 'harness-strip', 'underside over reflector')).toEqual([[2, 1]]);
  });
});

describe('mass', () => {
  const parts = new Map(assemblyOf(rodArray).parts.map((part) => [part.id, part]));
  const grams = (id: string): number => {
    const part = parts.get(id);
    if (part === undefined) throw new Error(`no part ${id}`);
    return 1000 * partMassKg(part);
  };

  it('is area times thickness times the density of brass', () => {
    const part = parts.get('patch-driven');
    const density = part?.form === 'plate' ? part.sheet.material.densityKgM3 : 0;
    // CuZn37 is 8440 kg/m³ (memory: handbook); the catalogue may round.
    expect(density).toBeGreaterThan(8300);
    expect(density).toBeLessThan(8600);
    const area = 26 * 20 - (Math.PI / 4) * (3.4 ** 2 + 1.7 ** 2);
    expect(grams('patch-driven')).toBeCloseTo(area * 0.5 * density * 1e-6, 9);
  });

  it('is plausible for fasteners', () => {
    // ISO 7045 pan head M3 x 6 in steel weighs about 0.56 g without its recess taken off the head; brass a little more (memory).
    expect(grams('m3-pan-6-brass')).toBeGreaterThan(0.4);
    expect(grams('m3-pan-6-brass')).toBeLessThan(1);
    // ISO 4032 M3 nut in steel: 0.38 g (memory).
    expect(grams('m3-nut-brass')).toBeGreaterThan(0.3);
    expect(grams('m3-nut-brass')).toBeLessThan(0.5);
  });
});
