import type { DesignFile } from '@sheetwave/design';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assemble } from '../assemble.ts';
import type { Assembly, PlatePart } from '../assembly.ts';
import type { Hole } from '../outline.ts';
import { assemblyOf, designOf, rodArray, stripArray } from '../testing/designs.ts';
import { validate } from '../validate.ts';
import { clearanceMm, faceObstacles } from './obstacles.ts';

function reflectorOf(assembly: Assembly): PlatePart {
  const part = assembly.parts.find(({ id }) => id === 'reflector');
  if (part?.form !== 'plate') throw new Error('a sheet was expected');
  return part;
}
const holes = (assembly: Assembly, purpose: Hole['purpose']): Hole[] =>
  reflectorOf(assembly).outline.holes.filter((hole) => hole.purpose === purpose);

function withReflector(file: DesignFile, reflector: Partial<DesignFile['reflector']>): DesignFile {
  return { ...file, reflector: { ...file.reflector, ...reflector } };
}

const layoutOf = (assembly: Assembly) => ({
  design: assembly.design,
  elements: assembly.elements,
  splits: assembly.harness,
  coaxPoint: assembly.coaxPoint,
  widthMm: assembly.reflector.widthMm,
  heightMm: assembly.reflector.heightMm,
});

const large = { size: { width: '180 mm', height: '240 mm' } } as const;

describe('the holes of a pole clamp', () => {
  it('lie about the centre, at the spacing of the U-bolt, clear of everything on the face', () => {
    const assembly = assemblyOf(withReflector(stripArray, { ...large, clamp: { pole: '40 mm' } }));
    const clamp = holes(assembly, 'clamp');
    expect(clamp.map(({ diameterMm }) => diameterMm)).toEqual([6.6, 6.6, 6.6, 6.6]);
    const xs = clamp.map(({ centre }) => centre.x);
    const ys = clamp.map(({ centre }) => centre.y);
    expect(xs).toEqual([-26, 26, 26, -26]);
    expect(ys[0]).toBe(-(ys[2] ?? 0));
    for (const obstacle of faceObstacles(layoutOf(assembly)))
      for (const { centre } of clamp) expect(clearanceMm(obstacle, centre)).toBeGreaterThanOrEqual(6 + 1 - 1e-9);
    // As far apart as the edge lets them: two hole diameters from it, 120 - 13.2 = 106.8, on the grid of half a millimetre.
    expect(ys[2]).toBe(106.5);
  });

  it('are refused where they would meet what is there', () => {
    // The elements of the array are at (+-22, +-20): legs at (+-26, +-20) fall on the patches.
    const file = withReflector(rodArray, { ...large, clamp: { pole: '40 mm', distance: '40 mm' } });
    const { assembly, findings } = assemble(designOf(file));
    expect(assembly).toBeUndefined();
    const found = findings.find(({ code }) => code === 'clamp-in-the-way');
    expect(found).toMatchObject({ severity: 'error', at: { x: 26, y: 20, z: 0 } });
    expect(found?.allowed).toContain('the driven patch');
  });

  it('are refused on a face that is too narrow, with the width that it takes', () => {
    const file = withReflector(rodArray, {
      size: { width: '120 mm', height: '240 mm' },
      clamp: { pole: '90 mm', spacing: '104 mm', hole: '11 mm' },
    });
    // 104 + 4 x 11 = 148 mm.
    const found = assemble(designOf(file)).findings.find(({ code }) => code === 'clamp-does-not-fit');
    expect(found?.allowed).toContain('148 mm');
  });
});

describe('the holes of a box', () => {
  const boxed = (box: DesignFile['box']): DesignFile => ({ ...withReflector(rodArray, large), box });

  it('are a drain at the lowest point in both polarisations and a gland beside the coax', () => {
    const assembly = assemblyOf(
      boxed({ part_of: 'reflector', drain: { diameter: '4 mm' }, gland: { diameter: '12.5 mm' } }),
    );
    // Wall 8 mm and half the hole from the edge of 180 x 240: y = -120 + 10, x = 90 - 10.
    expect(holes(assembly, 'drain').map(({ centre }) => centre)).toEqual([
      { x: 0, y: -110 },
      { x: 80, y: 0 },
    ]);
    const [gland] = holes(assembly, 'gland');
    for (const obstacle of faceObstacles(layoutOf(assembly)))
      expect(clearanceMm(obstacle, gland?.centre ?? { x: 0, y: 0 })).toBeGreaterThanOrEqual(0.76 * 12.5 + 1 - 1e-9);
    expect(validate(assembly).filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('stay out of the reflector when the box has its own walls', () => {
    const { assembly, findings } = assemble(designOf(boxed({ drain: { diameter: '4 mm' } })));
    expect(assembly && holes(assembly, 'drain')).toEqual([]);
    expect(findings).toContainEqual(expect.objectContaining({ code: 'holes-in-the-box', severity: 'note' }));
  });

  it('never touch anything, for any wall and size that fits', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 20 }),
        fc.integer({ min: 2, max: 8 }),
        fc.integer({ min: 8, max: 20 }),
        (wall, drain, gland) => {
          const box = {
            part_of: 'reflector',
            wall: `${wall} mm`,
            drain: { diameter: `${drain} mm` },
            gland: { diameter: `${gland} mm` },
          } as const;
          const { assembly } = assemble(designOf(boxed(box)));
          if (!assembly) return;
          const errors = validate(assembly).filter(({ severity }) => severity === 'error');
          expect(errors).toEqual([]);
        },
      ),
      { seed: 20260517, numRuns: 15 },
    );
  }, 60_000);
});

describe('a panel connector', () => {
  it('has its body hole and the holes of its flange in the reflector, and no cable', () => {
    const assembly = assemblyOf({
      ...withReflector(rodArray, large),
      coax: { stock: 'semi-rigid-141', connector: 'n-jack-panel-4' },
    });
    const { x, y } = assembly.coaxPoint;
    // Trade pattern (memory): 18.2 mm square, so 9.1 mm each way.
    expect(holes(assembly, 'connector-flange').map(({ centre }) => [centre.x - x, centre.y - y])).toEqual(
      [
        [-9.1, -9.1],
        [9.1, -9.1],
        [9.1, 9.1],
        [-9.1, 9.1],
      ].map(([a, b]) => [expect.closeTo(a ?? 0, 9), expect.closeTo(b ?? 0, 9)]),
    );
    expect(holes(assembly, 'coax')).toMatchObject([{ diameterMm: 13 }]);
    expect(assembly.parts.some(({ id }) => id === 'semi-rigid-141')).toBe(false);
    expect(reflectorOf(assembly).marks.some(({ purpose }) => purpose === 'solder-land')).toBe(false);
  });
});

describe('a folded reflector', () => {
  const folded = (fold: NonNullable<DesignFile['reflector']['fold']>, more: Partial<DesignFile['reflector']> = {}) =>
    assemble(
      designOf(
        withReflector(rodArray, { ...large, mounting_holes: { diameter: '5.5 mm', inset: '9 mm' }, fold, ...more }),
      ),
    );

  it('keeps every hole where it was, because positions count from the centre', () => {
    const flat = assemblyOf(
      withReflector(rodArray, { ...large, mounting_holes: { diameter: '5.5 mm', inset: '9 mm' } }),
    );
    const { assembly } = folded({ sides: 'all', height: '12 mm' });
    expect(assembly && reflectorOf(assembly).outline.holes).toEqual(reflectorOf(flat).outline.holes);
    expect(assembly && validate(assembly).filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('is refused when the folded edge has no flat part', () => {
    const { assembly, findings } = folded({ sides: ['top'], height: '2 mm' });
    expect(assembly).toBeUndefined();
    expect(findings).toContainEqual(expect.objectContaining({ code: 'fold-too-low', severity: 'error' }));
  });

  it('warns of a low edge with the number of the shop rule', () => {
    // 4 x 1 + 1 = 5 mm.
    const found = folded({ sides: ['top'], height: '4.5 mm' }).findings.find(({ code }) => code === 'fold-low');
    expect(found).toMatchObject({ severity: 'warning' });
    expect(found?.allowed).toContain('5 mm');
  });

  it('warns of a hole near the bend and refuses one in it', () => {
    // Inset 6, radius 2.75, setback 2: 6 - 2.75 - 2 = 1.25 mm from the bend; 2 x 1 + 1 = 3 mm are wanted, so 1.75 inward.
    const holesAt = (inset: string) => ({ mounting_holes: { diameter: '5.5 mm', inset } });
    const near = folded({ sides: ['left'], height: '12 mm' }, holesAt('6 mm')).findings;
    expect(near).toContainEqual(
      expect.objectContaining({ code: 'hole-near-bend', remedy: expect.stringContaining('1.75 mm') }),
    );
    const inside = folded({ sides: ['left'], height: '12 mm' }, holesAt('4 mm'));
    expect(inside.assembly).toBeUndefined();
    expect(inside.findings).toContainEqual(expect.objectContaining({ code: 'hole-in-bend', severity: 'error' }));
  });
});
