import { emitDxf } from '@sheetwave/emit-dxf';
import { type Contour, circleContour, outlineArea, type PlatePart, perimeter, signedArea } from '@sheetwave/geometry';
import { describe, expect, test } from 'vitest';
import { describeWithClients } from './client.ts';
import { type DxfEntityMeasure, inkscapeImport, librecadStrokes, measureDxf } from './dxf-clients.ts';
import { exampleAssemblies } from './example-assemblies.ts';
import { areaWithRoundCorners } from './round-corners.ts';
import { assemblyOf, disc, laserProcess, plate } from './sample-parts.ts';

const laser: PlatePart = { ...plate, process: laserProcess };
const compensated: PlatePart = { ...laser, process: { ...laserProcess, compensateKerf: true } };

function fileOf(part: PlatePart): Uint8Array {
  const [file] = emitDxf(assemblyOf([part]));
  if (file === undefined) throw new Error('no file');
  return file.bytes;
}

/** What is on a layer, by area. */
const onLayer = (entities: readonly DxfEntityMeasure[], layer: string): readonly DxfEntityMeasure[] =>
  entities.filter((entity) => entity.layer === layer).sort((a, b) => (a.area ?? 0) - (b.area ?? 0));

/** Lengths and areas within 0.01 %. */
function expectContours(found: readonly DxfEntityMeasure[], wanted: readonly Contour[]): void {
  const model = [...wanted].sort((a, b) => Math.abs(signedArea(a)) - Math.abs(signedArea(b)));
  expect(found).toHaveLength(model.length);
  for (const [index, contour] of model.entries()) {
    const [area, length] = [Math.abs(signedArea(contour)), perimeter(contour)];
    expect(found[index]?.closed).toBe(true);
    expect(Math.abs((found[index]?.area ?? 0) - area)).toBeLessThan(1e-4 * area);
    expect(Math.abs((found[index]?.length ?? 0) - length)).toBeLessThan(1e-4 * length);
  }
}

const hole = ({ centre, diameterMm }: PlatePart['outline']['holes'][number]) => circleContour(centre, diameterMm / 2);

describeWithClients(['ezdxf'], 'cut files read by ezdxf', () => {
  test('hand-cut plate: holes to drill, cut-out, saw line and outside have their sizes', () => {
    const { entities, complaints, insunits, measurement } = measureDxf(fileOf(plate));
    expect(complaints).toEqual([]);
    expect([insunits, measurement]).toEqual([4, 1]);
    expectContours(onLayer(entities, 'DRILL'), plate.outline.holes.map(hole));
    expectContours(onLayer(entities, 'CUT_INNER'), plate.outline.cutouts);
    expectContours(onLayer(entities, 'CUT_OUTER'), [plate.outline.outer]);
    // The saw line runs 0.5 mm outside 60 x 42 mm with 4 mm corners: sides and corner arcs, computed. Its corners stay round.
    const [rough] = onLayer(entities, 'ROUGH_CUT');
    expect(rough?.area).toBeCloseTo(61 * 43 - (4 - Math.PI) * 4.5 ** 2, 3);
  });

  test('laser: the large hole is cut, the small one drilled, and the material between has the area of the model', () => {
    const { entities } = measureDxf(fileOf(laser));
    expect(onLayer(entities, 'DRILL').map(({ diameter }) => diameter)).toEqual([0.6]);
    expect(onLayer(entities, 'CUT_INNER').filter(({ diameter }) => diameter === 3.2)).toHaveLength(1);
    const area = (layer: string) => onLayer(entities, layer).reduce((sum, entity) => sum + (entity.area ?? 0), 0);
    const material = area('CUT_OUTER') - area('CUT_INNER') - area('DRILL');
    expect(Math.abs(material / outlineArea(laser.outline) - 1)).toBeLessThan(1e-4);
  });

  test('tool path: arcs stay arcs, outside larger and inside smaller by half the kerf', () => {
    const { entities } = measureDxf(fileOf(compensated));
    // 0.1 mm each side, computed from the nominal sizes: 60 x 42 mm with 4 mm corners; slot 14 x 4 mm; hole 3.2 mm.
    const [outer] = onLayer(entities, 'CUT_OUTER');
    expect(outer?.area).toBeCloseTo(60.2 * 42.2 - (4 - Math.PI) * 4.1 ** 2, 3);
    const [cutHole, slot] = onLayer(entities, 'CUT_INNER');
    expect(cutHole?.diameter).toBeCloseTo(3, 6);
    expect(slot?.area).toBeCloseTo(10 * 3.8 + Math.PI * 1.9 ** 2, 3);
    expect(onLayer(entities, 'DRILL')[0]?.diameter).toBeCloseTo(0.6, 6);
  });

  test.each([plate, disc, laser, compensated])(
    '$id, $process.id: nothing open, double or wordy where it is cut',
    (part) => {
      const { entities } = measureDxf(fileOf(part));
      const cut = entities.filter(({ layer }) => /^(CUT_|ROUGH_CUT|DRILL)/.test(layer));
      expect(cut.every(({ closed, length }) => closed && length > 0)).toBe(true);
      const same = cut.map(({ layer, type, length, area, x, y }) => JSON.stringify([layer, type, length, area, x, y]));
      expect(new Set(same).size).toBe(same.length);
      expect(entities.filter(({ type }) => type === 'TEXT').every(({ layer }) => layer === 'NOTE')).toBe(true);
      expect(entities.every(({ type }) => ['LWPOLYLINE', 'CIRCLE', 'LINE', 'TEXT'].includes(type))).toBe(true);
      expect(entities.some(({ layer, type, length }) => layer === 'NOTE' && type === 'LINE' && length === 100)).toBe(
        true,
      );
    },
  );

  test('its strict reader refuses a file that is cut off', () => {
    expect(() => measureDxf(fileOf(plate).slice(0, 4000))).toThrow(/ezdxf/);
  });
});

describeWithClients(['ezdxf'], 'cut files of the examples read by ezdxf', () => {
  const plates = exampleAssemblies().flatMap(({ name, assembly }) =>
    emitDxf(assembly)
      .filter((file) => file.part !== undefined)
      .map((file) => ({ name: `${name} ${file.path}`, file, assembly })),
  );

  test('there are some of each process', () => {
    expect(plates.length).toBeGreaterThanOrEqual(8);
  });

  test.each(plates)('$name', ({ file, assembly }) => {
    const part = assembly.parts.find(({ id }) => id === file.part);
    if (part?.form !== 'plate') throw new Error(`no plate ${file.part}`);
    const { entities, complaints } = measureDxf(file.bytes);
    expect(complaints).toEqual([]);
    const [outside, ...more] = onLayer(entities, 'CUT_OUTER');
    expect(more).toEqual([]);
    const wanted = areaWithRoundCorners(part);
    expect(Math.abs((outside?.area ?? 0) / wanted - 1)).toBeLessThan(1e-4);
    const inside = [...onLayer(entities, 'CUT_INNER'), ...onLayer(entities, 'DRILL')];
    expect(inside).toHaveLength(part.outline.cutouts.length + part.outline.holes.length);
    const removed = inside.reduce((sum, entity) => sum + (entity.area ?? 0), 0);
    const nominal = Math.abs(signedArea(part.outline.outer)) - outlineArea(part.outline);
    expect(Math.abs(removed - nominal)).toBeLessThan(1e-4 * Math.max(1, nominal));
  });
});

describeWithClients(['librecad', 'mutool'], 'cut files opened by LibreCAD', () => {
  test.each([plate, disc])('$id is drawn', (part) => {
    expect(librecadStrokes(fileOf(part))).toBeGreaterThan(20);
  });
});

describeWithClients(['inkscape-dxf'], "cut files imported by Inkscape's importer", () => {
  test('one unit is one millimetre', () => {
    const { scale, paths } = inkscapeImport(fileOf(plate));
    expect(scale).toBe(1);
    // Mark, land, two holes, cut-out, saw line, outside; check line with two ticks.
    expect(paths).toBeGreaterThanOrEqual(10);
  });
});

describe('the files themselves', () => {
  test('end with the end mark and a line end', () => {
    expect(new TextDecoder().decode(fileOf(plate))).toMatch(/\n0\nEOF\n$/);
  });
});
