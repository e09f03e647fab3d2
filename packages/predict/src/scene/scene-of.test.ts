/** The scene against sums made by hand from the sizes that the designs give. */
import type { Outline, Scene, Sheet } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';
import { airPatch, assemblyOf, etchedArray, rodArray, stackInUse } from '../testing/antennas.ts';
import { sceneOf } from './scene-of.ts';

const area = (outline: Outline): number => {
  if (outline.kind === 'disc') return Math.PI * outline.radius ** 2;
  const { points } = outline;
  const twice = points.reduce((sum, [x, y], n) => {
    const [nextX, nextY] = points[(n + 1) % points.length] ?? [0, 0];
    return sum + x * nextY - nextX * y;
  }, 0);
  return Math.abs(twice) / 2;
};

const metalArea = ({ outline, holes = [] }: Sheet): number =>
  area(outline) - holes.reduce((sum, hole) => sum + area(hole), 0);
const volume = (sheet: Sheet): number => metalArea(sheet) * sheet.thickness;
const named = ({ sheets }: Scene, name: string): readonly Sheet[] => sheets.filter((sheet) => sheet.name === name);
const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);

describe('the scene of stacks with rods', () => {
  const { scene, ports } = sceneOf(assemblyOf(rodArray));

  it('has every patch with its area, thickness and height', () => {
    const driven = named(scene, 'patch-driven');
    expect(driven).toHaveLength(4);
    for (const sheet of driven) {
      expect(metalArea(sheet)).toBeCloseTo(19e-3 * 24e-3, 12);
      expect(sheet).toMatchObject({ normal: 'z', at: 5e-3, thickness: 0.5e-3 });
    }
    for (const sheet of named(scene, 'patch-parasitic')) {
      expect(sheet.outline).toMatchObject({ kind: 'disc', radius: 8e-3 });
      expect(sheet.at).toBeCloseTo(11.5e-3, 12);
    }
  });

  it('stands spacers between the sheets, as thick as a hexagon 5.5 mm across', () => {
    // Area of a hexagon: sqrt(3)/2 across^2 = 26.2 mm^2; the square rod of its capacitance has a little less.
    const [low, high] = [named(scene, 'm3-mf-5-brass'), named(scene, 'm3-mf-6-brass')];
    expect([low.length, high.length]).toEqual([4, 4]);
    for (const post of [...low, ...high]) expect(metalArea(post) / 26.2e-6).toBeGreaterThan(0.92);
    for (const post of [...low, ...high]) expect(metalArea(post) / 26.2e-6).toBeLessThan(1);
    expect(low[0]?.at).toBe(0);
    expect(low[0]?.thickness).toBeCloseTo(5e-3, 12);
    expect(high[0]?.at).toBeCloseTo(5.5e-3, 12);
    expect(high[0]?.thickness).toBeCloseTo(6e-3, 12);
  });

  it('has the whole length of the rods: bars from axis to axis, probes up through the driven patch', () => {
    // Two rods of 40 mm with two probes of 5.5 - 2.1 mm each, and one of 40 mm between them, 1.5 mm thick.
    const lengthMm = 2 * (40 + 2 * (5.5 - 2.1)) + 40;
    const rods = [...named(scene, 'rod-level-0'), ...named(scene, 'rod-level-1')];
    expect(sum(rods.map(volume))).toBeCloseTo(lengthMm * 1e-3 * Math.PI * 0.75e-3 ** 2, 12);
  });

  it('is driven by the coax at its foot, or at each element without the rods', () => {
    expect(ports).toEqual([{ name: 'coax', element: undefined }]);
    expect(scene.ports[0]).toMatchObject({ from: [0, scene.ports[0]?.from[1], 0], resistance: 50 });
    const apart = sceneOf(assemblyOf(rodArray), { feed: 'each-element' });
    expect(apart.scene.ports).toHaveLength(4);
    expect(apart.scene.sheets.filter(({ name }) => name.startsWith('rod'))).toEqual([]);
    // 4 mm from the lower edge of a patch 19 mm long, in columns 40 mm apart.
    expect(apart.scene.ports.map(({ from }) => from[0])).toEqual([-20e-3, 20e-3, -20e-3, 20e-3]);
    expect(apart.scene.ports[0]?.from[1]).toBeCloseTo(-20e-3 - 5.5e-3, 12);
  });

  it('says where in the design every part comes from', () => {
    const { scene: same, paths } = sceneOf(assemblyOf(rodArray));
    expect(paths.sheets).toHaveLength(same.sheets.length);
    expect(paths.sheets[same.sheets.findIndex(({ name }) => name === 'patch-parasitic')]).toBe('layer[1]');
    expect(paths.sheets[same.sheets.findIndex(({ name }) => name === 'rod-level-0')]).toBe('harness');
  });
});

describe('the scene of a board', () => {
  it('has its dielectric, and of the copper the patches with their notches', () => {
    const { scene } = sceneOf(assemblyOf(etchedArray), { feed: 'each-element' });
    expect(scene.solids).toHaveLength(1);
    expect(scene.solids[0]).toMatchObject({ permittivity: 2.2, lossTangent: 0.0009 });
    expect(scene.solids[0]?.shape).toMatchObject({ low: [-50e-3, -52.5e-3, 0], high: [50e-3, 52.5e-3, 0.787e-3] });
    // 17.65 x 21.5 mm less a notch 4.6 mm deep and as wide as the line with its two gaps.
    const one = 17.65 * 21.5 - 4.6 * (0.7 + 2 * 0.6);
    expect(sum(named(scene, 'etched').map(metalArea))).toBeCloseTo(4e-6 * one, 10);
  });

  it('joins patches and lines to one piece of copper when it is built', () => {
    const { scene } = sceneOf(assemblyOf(etchedArray));
    expect(named(scene, 'etched')).toHaveLength(1);
  });
});

describe('a short probe', () => {
  it('is as high on every grid, so that the impedance tends to one value', () => {
    for (const quality of ['draft', 'normal', 'fine'] as const) {
      const { scene } = sceneOf(assemblyOf(stackInUse), { quality });
      expect([scene.ports[0]?.from[2], scene.ports[0]?.to[2]]).toEqual([0, 2e-3]);
      expect([scene.wires[0]?.from[2], scene.wires[0]?.to[2]]).toEqual([2e-3, 6e-3]);
    }
  });

  it('is a port all the way to the patch, with the radius of its pin', () => {
    const low = airPatch(23);
    const layer = low.layer.map((one) => ({ ...one, spacer: { printed: '1.5 mm', outer: '6 mm' } }));
    const { scene } = sceneOf(assemblyOf({ ...low, layer }));
    expect(scene.wires).toEqual([]);
    const [port] = scene.ports;
    expect([port?.from[2], port?.to[2]]).toEqual([0, 1.5e-3]);
    expect(port?.radius).toBeCloseTo(0.46e-3, 12);
  });

  it('has none where no pin stands: at the edge of an etched patch', () => {
    const { scene } = sceneOf(assemblyOf(etchedArray), { feed: 'each-element' });
    expect(scene.ports.map(({ radius }) => radius)).toEqual(scene.ports.map(() => undefined));
  });
});

describe('plastic', () => {
  it('is a dielectric around its screw of metal', () => {
    const { scene } = sceneOf(assemblyOf(airPatch(23)));
    expect(scene.solids[0]?.shape).toMatchObject({ kind: 'cylinder', radius: 3e-3, from: 0, to: 3e-3 });
    expect(named(scene, 'm3-pan-10-brass')[0]).toMatchObject({ at: 0, thickness: 3.5e-3 });
  });
});

describe('a cover', () => {
  const cover = { thicknessMm: 2, distanceMm: 5, permittivity: 2.7, lossTangent: 0.009 };
  const scenes = [true, false].map(
    (filled) => sceneOf(assemblyOf(airPatch(23)), { cover: { ...cover, filled } }).scene,
  );
  const [withIt, without] = scenes.map(({ solids }) => solids.filter(({ name }) => name === 'cover'));

  it('is a plate over the reflector, counted from the front of the outermost patch', () => {
    // 3 mm of spacer, 0.5 mm of sheet, 5 mm of air.
    const shape = withIt?.[0]?.shape;
    if (shape?.kind !== 'box') throw new Error('a plate is a box');
    expect([shape.low[2], shape.high[2]].map((z) => Number(z.toFixed(9)))).toEqual([8.5e-3, 10.5e-3]);
    expect(withIt?.[0]).toMatchObject({ permittivity: 2.7, lossTangent: 0.009 });
  });
  it('left out keeps its place and is air again, so that the grid is the same', () => {
    expect(without?.map(({ permittivity }) => permittivity)).toEqual([2.7, 1]);
    expect(without?.[1]?.shape).toEqual(withIt?.[0]?.shape);
  });
  it('is refused where something stands', () => {
    const near = { ...cover, distanceMm: 0.1, filled: true };
    expect(() => sceneOf(assemblyOf(airPatch(23)), { cover: near })).toThrow(
      /cover: 0\.1 mm: is too near: screws, nuts/,
    );
  });
});
