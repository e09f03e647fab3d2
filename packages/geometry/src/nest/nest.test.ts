import { findStock, type Process, processes, type Sheet } from '@sheetwave/design';
import { booleanOpD, ClipType, FillRule } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Assembly, PlatePart } from '../assembly.ts';
import { signedArea } from '../contour-measure.ts';
import { circleContour, rectangleContour } from '../contours.ts';
import { flattenContour } from '../flatten.ts';
import type { Contour } from '../outline.ts';
import { placeContour } from '../transform.ts';
import { blocksOf } from './blocks.ts';
import { type Nest, type NestedSheet, nest } from './nest.ts';

const brass = findStock('sheet', 'brass-0.5');
if (brass === undefined) throw new Error('no stock');
const stock = (sizesMm: Sheet['sizesMm']): Sheet => ({ ...brass, sizesMm });
const centre = { x: 2, y: -1 };
const plain: Process = { ...processes.laser, spacingMm: 3, edgeMarginMm: 5 };

function plate(id: string, outer: Contour, more: Partial<PlatePart> = {}): PlatePart {
  return {
    form: 'plate',
    role: 'patch',
    id,
    name: id,
    quantity: 1,
    sheet: brass as Sheet,
    outline: { outer, cutouts: [], holes: [] },
    marks: [],
    process: plain,
    ...more,
  };
}
const rectangle = (widthMm: number, heightMm: number): Contour => rectangleContour({ centre, widthMm, heightMm });
const nestOf = (...parts: readonly PlatePart[]): Nest => nest({ parts } as unknown as Assembly);

/** Outsides as they lie, as polygons. */
function polygons(sheet: NestedSheet): { x: number; y: number }[][] {
  return sheet.pieces.map(({ part, at, turnDeg }) =>
    flattenContour(placeContour(part.outline.outer, { at: { ...at, z: 0 }, turnDeg }), { toleranceMm: 0.0002 }).map(
      ({ x, y }) => ({ x, y }),
    ),
  );
}
const area = (paths: readonly (readonly { x: number; y: number }[])[]): number =>
  paths.reduce((sum, path) => {
    const twice = path.reduce((s, p, i) => {
      const q = path[(i + 1) % path.length] ?? p;
      return s + p.x * q.y - q.x * p.y;
    }, 0);
    return sum + twice / 2;
  }, 0);

/** Judged by a polygon library: the union of all parts grown by half the spacing has the area of their sum, so none overlap. */
function overlapArea(sheet: NestedSheet): number {
  const half = sheet.process.spacingMm / 2 - 1e-4;
  const grown = polygons(sheet).map((path) => {
    const box = { x: path.map((p) => p.x), y: path.map((p) => p.y) };
    const [l, r, b, t] = [
      Math.min(...box.x) - half,
      Math.max(...box.x) + half,
      Math.min(...box.y) - half,
      Math.max(...box.y) + half,
    ];
    return [
      { x: l, y: b },
      { x: r, y: b },
      { x: r, y: t },
      { x: l, y: t },
    ];
  });
  return area(grown) - area(booleanOpD(ClipType.Union, grown, [], FillRule.NonZero, 6));
}

function expectSound(sheets: readonly NestedSheet[]): void {
  for (const sheet of sheets) {
    expect(overlapArea(sheet)).toBeLessThan(1e-3);
    const margin = sheet.process.edgeMarginMm - 1e-5;
    const points = polygons(sheet).flat();
    const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
    const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b));
    const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b));
    expect(least([...xs, ...ys])).toBeGreaterThanOrEqual(margin);
    expect(most(xs)).toBeLessThanOrEqual(sheet.widthMm - margin);
    expect(most(ys)).toBeLessThanOrEqual(sheet.heightMm - margin);
  }
}

describe('on a sheet', () => {
  const side = fc.double({ min: 4, max: 90, noNaN: true });
  const kind = fc.record({
    w: side,
    h: side,
    quantity: fc.integer({ min: 1, max: 40 }),
    round: fc.boolean(),
    grain: fc.boolean(),
  });

  test('parts keep their spacing and the edge margin, none is lost and none grows', () => {
    fc.assert(
      fc.property(fc.array(kind, { minLength: 1, maxLength: 4 }), (kinds) => {
        const parts = kinds.map(({ w, h, quantity, round, grain }, i) =>
          plate(`part-${i}`, round ? circleContour(centre, w / 2) : rectangle(w, h), { quantity, keepsGrain: grain }),
        );
        const { sheets, findings } = nestOf(...parts);
        expect(findings).toEqual([]);
        expectSound(sheets);
        for (const part of parts) {
          const pieces = sheets.flatMap((sheet) => sheet.pieces).filter((piece) => piece.part.id === part.id);
          expect(pieces).toHaveLength(part.quantity);
          if (part.keepsGrain === true) expect(pieces.every(({ turnDeg }) => turnDeg === 0)).toBe(true);
        }
        const cut = sheets.reduce((sum, sheet) => sum + Math.abs(area(polygons(sheet))), 0);
        const wanted = parts.reduce((sum, p) => sum + p.quantity * Math.abs(signedArea(p.outline.outer)), 0);
        expect(cut / wanted).toBeCloseTo(1, 3);
        const left = sheets.reduce((sum, sheet) => sum + sheet.leftMm2, 0);
        const bought = sheets.reduce((sum, sheet) => sum + sheet.widthMm * sheet.heightMm, 0);
        expect(bought - left).toBeCloseTo(wanted, 4);
      }),
      { seed: 20260522, numRuns: 60 },
    );
  });

  test('the largest rectangle left is free of parts and inside the sheet', () => {
    fc.assert(
      fc.property(fc.array(kind, { minLength: 1, maxLength: 3 }), (kinds) => {
        const parts = kinds.map(({ w, h, quantity }, i) => plate(`part-${i}`, rectangle(w, h), { quantity }));
        for (const sheet of nestOf(...parts).sheets) {
          const free = sheet.largestLeft;
          if (free === undefined) continue;
          const asPath = [
            { x: free.minX, y: free.minY },
            { x: free.maxX, y: free.minY },
            { x: free.maxX, y: free.maxY },
            { x: free.minX, y: free.maxY },
          ];
          const common = booleanOpD(ClipType.Intersection, [asPath], polygons(sheet), FillRule.NonZero, 6);
          expect(Math.abs(area(common))).toBeLessThan(1e-6);
          expect(free.minX >= 0 && free.minY >= 0 && free.maxX <= sheet.widthMm && free.maxY <= sheet.heightMm).toBe(
            true,
          );
        }
      }),
      { seed: 20260523, numRuns: 60 },
    );
  });

  test('four patches of 40 x 40 mm leave a strip of known size', () => {
    // 200 x 100 mm, margin 5, spacing 3: a row of four is 4 x 40 + 3 x 3 = 169 mm long and fits into 190 x 90 mm. Computed.
    const part = plate('patch', rectangle(40, 40), { quantity: 4, sheet: stock([[100, 200]]) });
    const [sheet, ...more] = nestOf(part).sheets;
    expect(more).toEqual([]);
    expect(sheet?.leftMm2).toBeCloseTo(100 * 200 - 4 * 1600, 9);
    const free = sheet?.largestLeft;
    // Either a row of four (beside it 52 x 200), or two by two (83 mm square, beyond it 200 − 5 − 83 − 3 = 109 by 100 mm).
    expect(((free?.maxX ?? 0) - (free?.minX ?? 0)) * ((free?.maxY ?? 0) - (free?.minY ?? 0))).toBeCloseTo(109 * 100, 6);
  });
});

describe('the size to buy', () => {
  const patches = (quantity: number, sizes: Sheet['sizesMm']) =>
    nestOf(plate('patch', rectangle(40, 30), { quantity, sheet: stock(sizes) })).sheets;

  test('is the one that takes the least area', () => {
    // One 40 x 30 mm patch: 100 x 100 mm is enough; 50 x 300 mm would be 15,000 mm².
    expect(
      patches(1, [
        [50, 300],
        [100, 100],
        [200, 300],
      ]).map((s) => [s.widthMm, s.heightMm]),
    ).toEqual([[100, 100]]);
    // 24 of them: on 100 x 100 mm (90 inside) go 2 x 2 = 4 upright or 4 lying, so 6 sheets, 60,000 mm²;
    // 200 x 300 mm (190 x 290 inside): 4 columns of 40 + 3 by 8 rows of 30 + 3 = 32: one sheet, the same area, and fewer sheets. Computed.
    expect(
      patches(24, [
        [100, 100],
        [200, 300],
      ]).map((s) => [s.widthMm, s.heightMm].sort((a, b) => a - b)),
    ).toEqual([[200, 300]]);
  });

  test('lies whichever way takes more; parts that keep to the grain stand upright on the long side', () => {
    const bar = plate('bar', rectangle(150, 20), { quantity: 3, sheet: stock([[100, 200]]) });
    expect(nestOf(bar).sheets).toHaveLength(1);
    // Upright the sheet is 100 mm wide: a bar of 150 mm across it has no room.
    const grained = nestOf({ ...bar, keepsGrain: true });
    expect(grained.sheets).toEqual([]);
    expect(grained.findings[0]).toMatchObject({ code: 'part-exceeds-stock', value: '150 mm x 20 mm, grain upright' });
    const along = nestOf({ ...bar, outline: { ...bar.outline, outer: rectangle(20, 150) }, keepsGrain: true });
    expect(along.sheets.map((s) => [s.widthMm, s.heightMm, s.pieces.length])).toEqual([[100, 200, 3]]);
  });

  test('numbers go on over the processes of one stock', () => {
    const { sheets } = nestOf(
      plate('a', rectangle(40, 30)),
      plate('b', rectangle(40, 30), { process: processes.hand }),
      plate('c', rectangle(40, 30), { sheet: { ...stock([[100, 100]]), id: 'other' } }),
    );
    expect(sheets.map(({ sheet, process, number }) => [sheet.id, process.id, number])).toEqual([
      ['brass-0.5', 'laser', 1],
      ['brass-0.5', 'hand', 2],
      ['other', 'laser', 1],
    ]);
  });

  test('kerf in the path, stock to file off and run-ins need their room', () => {
    const part = (process: Partial<Process>) =>
      plate('patch', rectangle(40, 43.5), {
        quantity: 4,
        sheet: stock([[100, 100]]),
        process: { ...plain, ...process },
      });
    // 2 x 43.5 + 3 = 90 mm: just fits; half a millimetre around each no longer does. Computed.
    expect(nestOf(part({})).sheets).toHaveLength(1);
    expect(nestOf(part({ allowanceMm: 0.5 })).sheets).toHaveLength(2);
    expect(nestOf(part({ compensateKerf: true, kerfMm: 0.4 })).sheets).toHaveLength(2);
    expect(nestOf(part({ leadInMm: 3, kerfMm: 0.2 })).sheets).toHaveLength(2);
  });
});

describe('what cannot be laid out', () => {
  test('a part larger than any size is an error with both sizes', () => {
    const { sheets, findings } = nestOf(
      plate('reflector', rectangle(420, 300), {
        sheet: stock([
          [300, 300],
          [300, 400],
        ]),
      }),
      plate('patch', rectangle(40, 30), {
        sheet: stock([
          [300, 300],
          [300, 400],
        ]),
      }),
    );
    expect(sheets).toEqual([]);
    expect(findings).toMatchObject([
      {
        code: 'part-exceeds-stock',
        severity: 'error',
        path: 'part reflector',
        value: '420 mm x 300 mm',
        allowed: expect.stringContaining('290 mm x 390 mm'),
      },
    ]);
  });

  test('stock without thickness, a size of nothing, an allowance or kerf that eats the part, bridges without room', () => {
    const codes = (part: PlatePart): unknown[] =>
      nestOf(part).findings.map(({ code, severity }) => `${severity} ${code}`);
    const patch = plate('patch', rectangle(40, 30));
    expect(codes({ ...patch, sheet: { ...stock([[100, 100]]), thicknessMm: 0 } })).toEqual(['error no-sheet']);
    expect(codes({ ...patch, sheet: stock([[0, 100]]) })).toEqual(['error no-sheet']);
    const notch: PlatePart = {
      ...patch,
      outline: { ...patch.outline, cutouts: [rectangleContour({ centre, widthMm: 8, heightMm: 1 })] },
      process: { ...plain, kerfMm: 1.2, compensateKerf: true },
    };
    expect(codes(notch)).toEqual(['error cut-impossible']);
    expect(codes({ ...patch, process: { ...plain, tabs: { count: 12, widthMm: 10, belowMm: 50 } } })).toEqual([
      'error cut-impossible',
    ]);
    expect(codes({ ...patch, process: { ...plain, edgeMarginMm: 600 } })).toEqual(['error part-exceeds-stock']);
    expect(codes({ ...patch, sheet: stock([]) })).toEqual(['note sheet-sizes-unknown']);
  });
});

describe('growth', () => {
  test('a thousand equal pieces come to the packer as some tens of blocks, which hold them all', () => {
    const room = { widthMm: 290, heightMm: 590, gapMm: 3 };
    const kinds = [
      { widthMm: 24, heightMm: 27.3, turnable: true, quantity: 1024 },
      { widthMm: 22, heightMm: 22, turnable: false, quantity: 1024 },
    ];
    for (const [grouping, most] of [
      ['rows', 250],
      ['blocks', 60],
    ] as const) {
      const blocks = blocksOf(kinds, room, grouping);
      expect(blocks.length).toBeLessThan(most);
      for (const of of [0, 1])
        expect(blocks.filter((b) => b.of === of).reduce((sum, b) => sum + b.columns * b.rows, 0)).toBe(1024);
    }
  });

  const array = (quantity: number) => [
    plate('driven', rectangle(24, 27.3), { quantity }),
    plate('parasitic', circleContour(centre, 11), { quantity }),
    plate('reflector', rectangle(200, 180)),
  ];

  test('256 to 1,024 elements: the same places each time, and all of them', () => {
    for (const quantity of [256, 1024]) {
      const first = nestOf(...array(quantity));
      expect(first.sheets.flatMap((sheet) => sheet.pieces)).toHaveLength(2 * quantity + 1);
      expectSound(first.sheets);
      expect(nestOf(...array(quantity))).toEqual(first);
    }
  });
});
