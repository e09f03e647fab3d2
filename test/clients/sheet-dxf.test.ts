import { emitDxf } from '@sheetwave/emit-dxf';
import { kerfCoupons, kerfFromReadings, nest, type PlatePart, perimeter, rectangleContour } from '@sheetwave/geometry';
import { describe, expect, test } from 'vitest';
import { describeWithClients } from './client.ts';
import { type DxfEntityMeasure, inkscapeImport, librecadStrokes, measureDxf } from './dxf-clients.ts';
import { exampleAssemblies } from './example-assemblies.ts';
import { areaWithRoundCorners } from './round-corners.ts';
import { assemblyOf, laserProcess, plate } from './sample-parts.ts';

const examples = exampleAssemblies();
const sheets = examples.flatMap(({ name, assembly }) => {
  const files = emitDxf(assembly).filter(({ kind }) => kind === 'sheet-dxf');
  return nest(assembly).sheets.map((sheet, i) => {
    const file = files[i];
    if (file === undefined) throw new Error('a sheet without a file');
    return { name: `${name} ${file.path}`, sheet, bytes: file.bytes };
  });
});
const coupons = examples.flatMap(({ name, assembly }) => {
  const files = emitDxf(assembly).filter(({ path }) => path.includes('kerf-coupon'));
  return kerfCoupons(assembly).map((coupon, i) => ({
    name: `${name} ${files[i]?.path}`,
    coupon,
    bytes: files[i]?.bytes ?? new Uint8Array(),
  }));
});

const on = (entities: readonly DxfEntityMeasure[], layer: string) =>
  entities.filter((entity) => entity.layer === layer);

/** Least distance between two upright boxes along x or y; below 0 where they overlap. */
function apart(a: DxfEntityMeasure, b: DxfEntityMeasure): number {
  const [p, q] = [a.box ?? [0, 0, 0, 0], b.box ?? [0, 0, 0, 0]];
  return Math.max(p[0] - q[2], q[0] - p[2], p[1] - q[3], q[1] - p[3]);
}

describe('the examples', () => {
  test('have sheets and coupons of more than one process', () => {
    expect(sheets.length).toBeGreaterThanOrEqual(6);
    expect(coupons.length).toBeGreaterThanOrEqual(4);
    expect(new Set(sheets.map(({ sheet }) => sheet.process.id)).size).toBeGreaterThanOrEqual(3);
  });
});

describeWithClients(['ezdxf'], 'whole sheets read by ezdxf', () => {
  test.each(sheets)('$name', ({ sheet, bytes }) => {
    const { entities, complaints, insunits, measurement } = measureDxf(bytes);
    expect([complaints, insunits, measurement]).toEqual([[], 4, 1]);
    const outer = on(entities, 'CUT_OUTER');
    expect(outer).toHaveLength(sheet.pieces.length);
    expect(outer.every(({ closed }) => closed)).toBe(true);
    const area = outer.reduce((sum, entity) => sum + (entity.area ?? 0), 0);
    const wanted = sheet.pieces.reduce((sum, { part }) => sum + areaWithRoundCorners(part), 0);
    expect(Math.abs(area / wanted - 1)).toBeLessThan(1e-4);
    const holes = sheet.pieces.reduce((n, { part }) => n + part.outline.holes.length + part.outline.cutouts.length, 0);
    expect(on(entities, 'DRILL').length + on(entities, 'CUT_INNER').length).toBe(holes);
    const edge = on(entities, 'NOTE').filter(({ type }) => type === 'LWPOLYLINE');
    expect(edge.map(({ area: a }) => a)).toEqual([expect.closeTo(sheet.widthMm * sheet.heightMm, 3)]);
  });

  test.each(sheets)('$name: parts keep the spacing of the process and the edge margin', ({ sheet, bytes }) => {
    const { entities } = measureDxf(bytes);
    // What is cut outermost: the saw line where there is one.
    const rough = on(entities, 'ROUGH_CUT');
    const outer = rough.length > 0 ? rough : on(entities, 'CUT_OUTER');
    const { spacingMm, edgeMarginMm } = sheet.process;
    for (const [i, a] of outer.entries()) {
      const [minX, minY, maxX, maxY] = a.box ?? [0, 0, 0, 0];
      const margin = Math.min(minX, minY, sheet.widthMm - maxX, sheet.heightMm - maxY);
      expect(margin).toBeGreaterThanOrEqual(edgeMarginMm - 1e-3);
      for (const b of outer.slice(i + 1)) expect(apart(a, b)).toBeGreaterThanOrEqual(spacingMm - 1e-3);
    }
  });
});

describeWithClients(['ezdxf'], 'kerf coupons read by ezdxf', () => {
  test.each(coupons)('$name: slots and tongue have the widths that the notes say', ({ coupon, bytes }) => {
    const { entities, complaints } = measureDxf(bytes);
    expect(complaints).toEqual([]);
    const slots = on(entities, 'CUT_INNER').map(({ box }) => (box?.[2] ?? 0) - (box?.[0] ?? 0));
    expect(slots.map((width) => Number(width.toFixed(6))).sort((a, b) => a - b)).toEqual(coupon.widthsMm);
    const words = on(entities, 'NOTE')
      .map(({ text }) => text ?? '')
      .join('|');
    expect(words).toContain('kerf = (S - T) / 2');
    expect(words).toContain('kerf compensation off');
    // A cut of 0.3 mm on these lines, by hand: the 10 mm slot 10.3, the step 9.7; half their difference is 0.3.
    expect(kerfFromReadings({ slotMm: 10.3, tongueMm: 9.7 })).toBeCloseTo(0.3, 12);
  });
});

const small: PlatePart = {
  ...plate,
  id: 'patch-small',
  outline: { ...plate.outline, outer: rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 44, heightMm: 42 }) },
  process: { ...laserProcess, leadInMm: 1.5, tabs: { count: 3, widthMm: 0.6, belowMm: 50 } },
};

describeWithClients(['ezdxf'], 'run-ins and bridges read by ezdxf', () => {
  const files = emitDxf(assemblyOf([small]));
  const read = (path: string) =>
    measureDxf(files.find((file) => file.path === path)?.bytes ?? new Uint8Array()).entities;

  test('a quarter circle for each contour on a layer of its own, and closed contours as ever', () => {
    const entities = read('cut/patch-small.dxf');
    const leads = on(entities, 'LEAD_IN');
    // Slot, hole of 3.2 mm, outside; 2.356 mm = π/2 x 1.5 mm, and half of it in the hole and the 4 mm slot.
    expect(leads.map(({ closed }) => closed)).toEqual([false, false, false]);
    expect(leads.filter(({ length }) => Math.abs(length - (Math.PI / 2) * 1.5) < 1e-4).length).toBeGreaterThanOrEqual(
      1,
    );
    expect(on(entities, 'CUT_OUTER').map(({ closed }) => closed)).toEqual([true]);
    expect(on(entities, 'CUT_TABBED')).toEqual([]);
  });

  test('three open lines that leave out three bridges and their kerf; no closed outside beside them', () => {
    const entities = read('cut/patch-small-tabbed.dxf');
    const open = on(entities, 'CUT_TABBED');
    expect(open.map(({ closed }) => closed)).toEqual([false, false, false]);
    // 2 x (44 + 42) mm less three gaps of 0.6 mm and a kerf of 0.2 mm each: computed.
    expect(open.reduce((sum, { length }) => sum + length, 0)).toBeCloseTo(172 - 3 * 0.8, 5);
    expect(perimeter(small.outline.outer)).toBe(172);
    expect(on(entities, 'CUT_OUTER')).toEqual([]);
    // A run-in must not end in a gap: only those of the hole and the slot are left.
    expect(on(entities, 'LEAD_IN')).toHaveLength(2);
  });
});

describeWithClients(['librecad', 'mutool'], 'whole sheets and coupons opened by LibreCAD', () => {
  test.each([...sheets.slice(0, 2), ...coupons.slice(0, 1)])('$name is drawn', ({ bytes }) => {
    expect(librecadStrokes(bytes)).toBeGreaterThan(20);
  });

  test('and one with open lines', () => {
    const files = emitDxf(assemblyOf([small]));
    expect(librecadStrokes(files[1]?.bytes ?? new Uint8Array())).toBeGreaterThan(20);
  });
});

describeWithClients(['inkscape-dxf'], "whole sheets and coupons imported by Inkscape's importer", () => {
  test.each([...sheets, ...coupons])('$name: one unit is one millimetre', ({ bytes }) => {
    const { scale, paths } = inkscapeImport(bytes);
    expect(scale).toBe(1);
    expect(paths).toBeGreaterThanOrEqual(5);
  });
});
