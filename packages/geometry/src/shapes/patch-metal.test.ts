import type { PatchCorners, PatchShape, PatchSlot } from '@sheetwave/design';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bounds, centroid, perimeter, signedArea } from '../contour-measure.ts';
import { polygonContour } from '../contours.ts';
import { contourCrossings, selfCrossings } from '../crossings.ts';
import type { Contour } from '../outline.ts';
import { moveContour, turnContour } from '../transform.ts';
import { centreLineSpans, discOnMetal, feedEdgeMm, patchMetal } from './patch-metal.ts';

const SEED = { seed: 20260517, numRuns: 200 };
type Rectangle = Extract<PatchShape, { kind: 'rectangle' }>;

const plain: Rectangle = { kind: 'rectangle', lengthMm: 24, widthMm: 30, corners: undefined, slot: undefined };
const u = { kind: 'u', edge: 'near', armMm: 12, baseMm: 10, slotMm: 2, offsetMm: 4, endRadiusMm: 0 } as const;
const e = { kind: 'e', edge: 'near', lengthMm: 15, slotMm: 2, spacingMm: 12, endRadiusMm: 0 } as const;

function metalArea(shape: PatchShape): number {
  const { outer, cutouts } = patchMetal(shape);
  return signedArea(outer) - cutouts.reduce((sum, cutout) => sum + Math.abs(signedArea(cutout)), 0);
}

describe('areas by hand', () => {
  // Each line is a sum of rectangles, triangles and quarter discs (computed).
  test.each<[string, PatchShape, number]>([
    ['plain', plain, 24 * 30],
    ['round corners', { ...plain, corners: { kind: 'round', radiusMm: 4 } }, 24 * 30 - 4 * (16 - 4 * Math.PI)],
    ['two cut corners', { ...plain, corners: { kind: 'cut', which: 'rising', sizeMm: 3 } }, 24 * 30 - 9],
    ['four cut corners', { ...plain, corners: { kind: 'cut', which: 'all', sizeMm: 3 } }, 24 * 30 - 18],
    ['U slot', { ...plain, slot: u }, 24 * 30 - (10 * 2 + 2 * 10 * 2)],
    ['U slot with full round ends', { ...plain, slot: { ...u, endRadiusMm: 1 } }, 24 * 30 - 60 + 6 * (1 - Math.PI / 4)],
    ['E slots', { ...plain, slot: e }, 24 * 30 - 2 * 30],
    // Each slot ends in a half disc: 14 mm of slot and half of a 2 mm disc.
    ['E slots with half discs', { ...plain, slot: { ...e, endRadiusMm: 1 } }, 24 * 30 - 2 * (14 * 2 + Math.PI / 2)],
    ['ring', { kind: 'ring', outerMm: 20, innerMm: 8 }, Math.PI * (100 - 16)],
    ['triangle', { kind: 'triangle', sideMm: 20 }, 100 * Math.sqrt(3)],
  ])('%s', (_, shape, area) => {
    expect(metalArea(shape)).toBeCloseTo(area, 9);
  });
});

describe('where things are', () => {
  const at = (shape: PatchShape, x: number, y: number): boolean =>
    discOnMetal(patchMetal(shape), { centre: { x, y }, radiusMm: 0 });

  test('rising cuts the lower left and upper right corners, falling the others', () => {
    const cut = (which: 'rising' | 'falling'): Rectangle => ({ ...plain, corners: { kind: 'cut', which, sizeMm: 3 } });
    const inCorners = (shape: PatchShape) => [
      at(shape, 14.5, 11.5),
      at(shape, -14.5, 11.5),
      at(shape, -14.5, -11.5),
      at(shape, 14.5, -11.5),
    ];
    expect(inCorners(cut('rising'))).toEqual([false, true, false, true]);
    expect(inCorners(cut('falling'))).toEqual([true, false, true, false]);
  });

  test('a near slot lies along the fed edge, which is below; a far one is the same turned by half a turn', () => {
    // Base of the U from y = -8 to -6, arms to y = 4 (offset 4 from the edge at -12).
    expect([
      at({ ...plain, slot: u }, 0, -7),
      at({ ...plain, slot: u }, 0, 0),
      at({ ...plain, slot: u }, 4, 3),
    ]).toEqual([false, true, false]);
    expect([
      at({ ...plain, slot: { ...u, edge: 'far' } }, 0, 7),
      at({ ...plain, slot: { ...u, edge: 'far' } }, 4, -3),
    ]).toEqual([false, false]);
    expect([
      at({ ...plain, slot: e }, 6, -11.9),
      at({ ...plain, slot: e }, 6, 2.9),
      at({ ...plain, slot: e }, 6, 3.1),
    ]).toEqual([false, false, true]);
    expect([
      at({ ...plain, slot: { ...e, edge: 'far' } }, -6, 11.9),
      at({ ...plain, slot: { ...e, edge: 'far' } }, -6, -11),
    ]).toEqual([false, true]);
  });

  test('a triangle stands on its fed edge, a third of its height below the centroid', () => {
    const shape: PatchShape = { kind: 'triangle', sideMm: 30 };
    expect(feedEdgeMm(shape)).toBeCloseTo((30 * Math.sqrt(3)) / 6, 12);
    expect(bounds(patchMetal(shape).outer).maxY).toBeCloseTo((30 * Math.sqrt(3)) / 3, 12);
    expect(Math.hypot(...Object.values(centroid(patchMetal(shape).outer)))).toBeLessThan(1e-12);
  });

  test('metal on the centre line: across a U slot and through a ring', () => {
    const ends = (shape: PatchShape) => centreLineSpans(patchMetal(shape)).flat();
    expect(ends({ ...plain, slot: u })).toEqual([-12, -8, -6, 12]);
    const ring = ends({ kind: 'ring', outerMm: 20, innerMm: 8 });
    expect(ring).toHaveLength(4);
    for (const [i, y] of [-10, -4, 4, 10].entries()) expect(Math.abs((ring[i] ?? 0) - y)).toBeLessThan(0.001);
  });
});

/** Rectangles with any corners and slots that fit. */
const anyRectangle = fc
  .record({
    lengthMm: fc.double({ min: 10, max: 80, noNaN: true }),
    widthMm: fc.double({ min: 10, max: 80, noNaN: true }),
    corner: fc.double({ min: 0.01, max: 0.09, noNaN: true }),
    corners: fc.constantFrom('round', 'rising', 'falling', 'all', 'none'),
    slot: fc.constantFrom('u', 'e', 'none'),
    edge: fc.constantFrom<'near' | 'far'>('near', 'far'),
    part: fc.double({ min: 0.2, max: 0.8, noNaN: true }),
    end: fc.double({ min: 0, max: 0.5, noNaN: true }),
  })
  .map((d): Rectangle => {
    const size = d.corner * Math.min(d.lengthMm, d.widthMm);
    const slotMm = 0.04 * Math.min(d.lengthMm, d.widthMm);
    return {
      kind: 'rectangle',
      lengthMm: d.lengthMm,
      widthMm: d.widthMm,
      corners: cornersFor(d.corners, size),
      slot: slotFor(),
    };
    function slotFor(): PatchSlot | undefined {
      const common = { edge: d.edge, slotMm, endRadiusMm: d.end * slotMm };
      if (d.slot === 'u')
        return {
          kind: 'u',
          ...common,
          armMm: slotMm + 0.5 * d.part * d.lengthMm,
          baseMm: 3 * slotMm + 0.4 * d.part * d.widthMm,
          offsetMm: 0.1 * d.lengthMm,
        };
      if (d.slot === 'e')
        return {
          kind: 'e',
          ...common,
          lengthMm: slotMm + d.part * 0.9 * d.lengthMm,
          spacingMm: 2 * slotMm + 0.5 * d.part * d.widthMm,
        };
      return undefined;
    }
  });

function cornersFor(kind: string, sizeMm: number): PatchCorners | undefined {
  if (kind === 'none') return undefined;
  if (kind === 'round') return { kind: 'round', radiusMm: sizeMm };
  return { kind: 'cut', which: kind === 'rising' || kind === 'falling' ? kind : 'all', sizeMm };
}

describe('any rectangle', () => {
  test('has simple contours that run the right way, one inside the other, within its length and width', () => {
    fc.assert(
      fc.property(anyRectangle, (shape) => {
        const { outer, cutouts } = patchMetal(shape);
        for (const contour of [outer, ...cutouts]) expect(selfCrossings(contour)).toEqual([]);
        expect(signedArea(outer)).toBeGreaterThan(0);
        for (const cutout of cutouts) {
          expect(signedArea(cutout)).toBeLessThan(0);
          expect(contourCrossings(outer, cutout)).toEqual([]);
        }
        const box = bounds(outer);
        expect(
          [box.maxX - box.minX, box.maxY - box.minY].map(
            (v, i) => Math.abs(v - (i === 0 ? shape.widthMm : shape.lengthMm)) < 1e-9,
          ),
        ).toEqual([true, true]);
      }),
      SEED,
    );
  });

  test('keeps its metal and its edge length when what is near goes far: the same turned', () => {
    fc.assert(
      fc.property(anyRectangle, (shape) => {
        if (shape.slot === undefined) return;
        const other = {
          ...shape,
          slot: { ...shape.slot, edge: shape.slot.edge === 'near' ? 'far' : 'near' },
        } as Rectangle;
        const length = (one: PatchShape) =>
          [patchMetal(one).outer, ...patchMetal(one).cutouts].reduce((sum, c) => sum + perimeter(c), 0);
        expect(metalArea(other)).toBeCloseTo(metalArea(shape), 9);
        expect(length(other)).toBeCloseTo(length(shape), 9);
      }),
      SEED,
    );
  });
});

describe('a drawn outline', () => {
  const square = (at: number, half: number): Contour =>
    polygonContour(
      [
        [-1, -1],
        [1, -1],
        [1, 1],
        [-1, 1],
      ].map(([x = 0, y = 0]) => ({ x: at + half * x, y: at + half * y })),
    );

  test('has its centroid at the centre, with the cut-out counted: two squares by hand', () => {
    // A 20 mm square about (0, 0) less a 4 mm square about (5, 5): the centroid moves by 5 * 16 / (400 - 16) away from the cut-out (computed).
    const { outer, cutouts } = patchMetal({
      kind: 'outline',
      file: 'a.dxf',
      loops: [square(5, 2), square(0, 10)],
      turnDeg: 0,
      centre: 'centroid',
    });
    const shift = (5 * 16) / 384;
    expect(centroid(outer).x).toBeCloseTo(shift, 12);
    expect(centroid(cutouts[0] as Contour).y).toBeCloseTo(5 + shift, 12);
    expect(signedArea(cutouts[0] as Contour)).toBeCloseTo(-16, 12);
  });

  test('does not care how its loops are listed, directed or placed; the turn is the only thing that shows', () => {
    fc.assert(
      fc.property(
        anyRectangle,
        fc.double({ min: -360, max: 360, noNaN: true }),
        fc.double({ min: -500, max: 500, noNaN: true }),
        (shape, turnDeg, away) => {
          const own = patchMetal(shape);
          const loops = [...own.cutouts, own.outer].map((loop) => moveContour(loop, { x: away, y: -away / 2 }));
          const made = patchMetal({ kind: 'outline', file: 'a.svg', loops, turnDeg, centre: 'centroid' });
          const wanted = [own.outer, ...own.cutouts].reduce((sum, c) => sum + signedArea(c), 0);
          expect([made.outer, ...made.cutouts].reduce((sum, c) => sum + signedArea(c), 0)).toBeCloseTo(wanted, 6);
          const turned = bounds(turnContour(own.outer, turnDeg));
          const box = bounds(made.outer);
          expect(box.maxX - box.minX).toBeCloseTo(turned.maxX - turned.minX, 6);
          expect(box.maxY - box.minY).toBeCloseTo(turned.maxY - turned.minY, 6);
        },
      ),
      SEED,
    );
  });
});
