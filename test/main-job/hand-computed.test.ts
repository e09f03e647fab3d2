/**
 * Golden measures of one small design, examples/laser-single-2g4, worked out by hand from its design file and the
 * stock it names. Each line shows its sum; nothing here was copied from the product's output.
 */
import { readFileSync } from 'node:fs';
import { readDesign } from '@sheetwave/design';
import { type Assembly, assemble, measure, outlineArea, partMassKg } from '@sheetwave/geometry';
import { describe, expect, it } from 'vitest';

const file = new URL('../../examples/laser-single-2g4/design.toml', import.meta.url);

function assembly(): Assembly {
  const { design } = readDesign(readFileSync(file, 'utf8'));
  const made = design && assemble(design).assembly;
  if (!made) throw new Error('the example does not assemble');
  return made;
}

/** [part, what, mm, how it was worked out] */
const BY_HAND: readonly (readonly [part: string, what: string, mm: number, sum: string])[] = [
  ['reflector', 'width', 190, 'as given'],
  ['reflector', 'height', 190, 'as given'],
  ['reflector', 'thickness', 1, 'brass-1.0'],
  ['reflector', 'mounting hole diameter', 5.5, 'as given'],
  ['reflector', 'mounting hole 1 from left edge', 12, 'inset'],
  ['reflector', 'mounting hole 2 from left edge', 178, '190 - 12'],
  ['reflector', 'fixing hole diameter', 3.4, 'ISO 273 medium clearance for M3 (confirmed)'],
  ['reflector', 'fixing hole 5 from left edge', 95, '190 / 2'],
  ['reflector', 'fixing hole 5 from bottom edge', 95, '190 / 2'],
  ['reflector', 'coax hole diameter', 3.18, 'dielectric 2.98 + 2 x 0.1 of clearance'],
  [
    'reflector',
    'coax hole 6 from bottom edge',
    73.7,
    '95 - (60 / 2 - 8.7): the pin is 8.7 mm inside the lower edge of the driven patch',
  ],
  ['patch-driven', 'width', 37.8, 'as given'],
  ['patch-driven', 'height', 60, 'as given'],
  ['patch-driven', 'thickness', 0.8, 'brass-0.8'],
  ['patch-driven', 'fixing hole 1 from left edge', 18.9, '37.8 / 2'],
  ['patch-driven', 'fixing hole 1 from bottom edge', 30, '60 / 2'],
  ['patch-driven', 'feed hole diameter', 1.2, 'as given'],
  ['patch-driven', 'feed hole 2 from bottom edge', 8.7, 'as given'],
  ['patch-parasitic', 'width', 49, 'as given'],
  ['patch-parasitic', 'height', 43.4, 'as given'],
  ['patch-driven', 'underside over reflector', 10, 'spacer of 10'],
  ['patch-driven', 'top over reflector', 10.8, '10 + 0.8'],
  ['patch-parasitic', 'underside over reflector', 22.8, '10 + 0.8 + 12'],
  ['patch-parasitic', 'top over reflector', 23.6, '22.8 + 0.8'],
  ['semi-rigid-141', 'length', 212.3, '200 of cable + 1 of reflector + 10.8 up to the patch top + 0.5 to solder'],
  ['antenna', 'height over all without cable', 32, '6 of stud behind + 23.6 + 2.4 of pan head (ISO 7045 M3, memory)'],
];

describe('the small design, measured', () => {
  const readings = measure(assembly());

  it.each(BY_HAND)('%s: %s is %d mm (%s)', (part, what, mm) => {
    const reading = readings.find((one) => one.part === part && one.what === what);
    expect(reading?.valueMm).toBeCloseTo(mm, 6);
  });

  it('has the areas of its rectangles less their holes', () => {
    const area = (id: string): number => {
      const part = assembly().parts.find((one) => one.id === id);
      if (part?.form !== 'plate') throw new Error(`no plate ${id}`);
      return outlineArea(part.outline);
    };
    expect(area('patch-driven')).toBeCloseTo(37.8 * 60 - Math.PI * (1.7 ** 2 + 0.6 ** 2), 6);
    expect(area('patch-parasitic')).toBeCloseTo(49 * 43.4 - Math.PI * 1.7 ** 2, 6);
    // Four quarter circles of 10 mm are missing at the corners: (4 - pi) x 100.
    const holes = Math.PI * (4 * 2.75 ** 2 + 1.7 ** 2 + 1.59 ** 2);
    expect(area('reflector')).toBeCloseTo(190 * 190 - (4 - Math.PI) * 100 - holes, 6);
  });

  it('weighs what brass of 8,440 kg/m3 weighs (CuZn37, conductor tables, memory)', () => {
    const driven = assembly().parts.find((one) => one.id === 'patch-driven');
    const areaMm2 = 37.8 * 60 - Math.PI * (1.7 ** 2 + 0.6 ** 2);
    expect(driven && partMassKg(driven)).toBeCloseTo(areaMm2 * 0.8 * 8440e-9, 6);
  });
});
