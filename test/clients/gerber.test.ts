import { emitGerber } from '@sheetwave/emit-gerber';
import {
  type BoardPart,
  bounds,
  type Contour,
  type CopperPiece,
  circleContour,
  type EmittedFile,
  type Hole,
  moveContour,
  polygonContour,
  rectangleContour,
  roundedRectangleContour,
  signedArea,
  turnContour,
} from '@sheetwave/geometry';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeWithClients } from './client.ts';
import { drillWithParser } from './drill-reader.ts';
import { exampleAssemblies } from './example-assemblies.ts';
import { readGerber } from './gerber-grammar.ts';
import { readWithPlotter } from './gerber-reader.ts';
import { drawWithGerbv, drillWithGerbv } from './gerbv.ts';
import { assemblyOf, patchBoard, reflectorBoard } from './sample-parts.ts';

const etched: BoardPart = { ...reflectorBoard, process: { ...reflectorBoard.process, undercutMm: 0.03 } };

/** The lower left corner of the outline is (0, 0) in every file. */
const movedToCorner = (board: BoardPart, point: { x: number; y: number }) => {
  const { minX, minY } = bounds(board.outline.outer);
  return { x: point.x - minX, y: point.y - minY };
};

function filesOf(board: BoardPart): readonly EmittedFile[] {
  return emitGerber(assemblyOf([board]));
}
function bytesOf(board: BoardPart, end: string): Uint8Array {
  const file = filesOf(board).find(({ path }) => path.endsWith(end));
  if (file === undefined) throw new Error(`no file ${end}`);
  return file.bytes;
}

const areaOf = (contour: Contour): number => Math.abs(signedArea(contour));

// Measures of the sample boards, computed from their numbers in sample-parts.ts.
const discArea = Math.PI * 20 ** 2;
const patchArea = 36 * 27 - 6 * 8;
// The line is 3.4 mm wide from y = -30 to y = 4 and overlaps the patch by 1 mm above its notch at y = 3.
const lineArea = 3.4 * 33;
// Half of the pin's land lies under the line's end: the other half of the 1.4 mm disc is outside it, as are both post lands.
const pinOutside = (Math.PI * 1.4 ** 2) / 2;
const postLands = 2 * Math.PI * 1.1 ** 2;
const topArea = patchArea + lineArea + pinOutside + postLands;
const planeArea = 79 * 89 - (4 - Math.PI) * 4.5 ** 2 - Math.PI * 2.05 ** 2;

describe('X2 files by the strict grammar', () => {
  test.each([patchBoard, reflectorBoard, etched])('$id: every file is in it', (board) => {
    const files = filesOf(board).filter(({ path }) => path.endsWith('.gbr'));
    expect(files.length).toBeGreaterThanOrEqual(4);
    const coordinates = files.map(({ bytes }) => readGerber(bytes).attributes['.SameCoordinates']?.[0]);
    expect(new Set(coordinates).size).toBe(1);
  });

  test('functions and polarities of the layers', () => {
    // Source: Gerber Layer Format Specification, 5.6.3 and 5.6.4 (confirmed).
    const attributes = (end: string) => {
      const found = readGerber(bytesOf(reflectorBoard, end)).attributes;
      return [found['.FileFunction']?.join(), found['.FilePolarity']?.join()];
    };
    expect(attributes('top-copper.gbr')).toEqual(['Copper,L1,Top', 'Positive']);
    expect(attributes('bottom-copper.gbr')).toEqual(['Copper,L2,Bot', 'Positive']);
    expect(attributes('top-mask.gbr')).toEqual(['Soldermask,Top', 'Negative']);
    expect(attributes('bottom-mask.gbr')).toEqual(['Soldermask,Bot', 'Negative']);
    expect(attributes('legend.gbr')).toEqual(['Legend,Top', 'Positive']);
    expect(attributes('profile.gbr')).toEqual(['Profile,NP', 'Positive']);
  });

  test('lands are pads at their places and sizes', () => {
    const { flashes } = readGerber(bytesOf(reflectorBoard, 'top-copper.gbr'));
    expect(flashes.map(({ diameterMm, apertureFunction }) => [diameterMm, apertureFunction])).toEqual([
      [2.8, 'ComponentPad'],
      [2.2, 'ComponentPad'],
      [2.2, 'ComponentPad'],
    ]);
    expect(flashes[0]?.xMm).toBeCloseTo(40, 9);
    expect(flashes[0]?.yMm).toBeCloseTo(15, 9);
  });

  test('the grammar refuses broken files', () => {
    const good = new TextDecoder().decode(bytesOf(patchBoard, 'top-copper.gbr'));
    const broken = (change: (text: string) => string) => () => readGerber(new TextEncoder().encode(change(good)));
    const unsummed = (text: string) => text.replace(/%TF\.MD5.*\n/, '');
    expect(broken((text) => text)).not.toThrow();
    expect(broken((text) => text.replace('G75*\n', ''))).toThrow(/checksum/);
    expect(broken((text) => unsummed(text).replace('G75*\n', ''))).toThrow(/before G75/);
    expect(broken((text) => text.replace('M02*\n', ''))).toThrow(/M02/);
    expect(broken((text) => unsummed(text).replace('D02*', 'D2*'))).toThrow(/not in the grammar/);
    expect(broken((text) => unsummed(text).replace(/X(\d+)(Y\d+I)/, 'X1$1$2'))).toThrow(/radii/);
  });

  test('any board: contours close, arcs are true, and each area is that of the model', () => {
    fc.assert(
      fc.property(randomBoard(), (board) => {
        const { regions, flashes } = readGerber(bytesOf(board, 'top-copper.gbr'));
        const wanted = board.copper.top.filter(({ purpose }) => purpose !== 'land');
        expect(regions).toHaveLength(wanted.length);
        for (const [index, { polarity, contour }] of wanted.entries()) {
          expect(regions[index]?.polarity).toBe(polarity);
          expect(Math.abs((regions[index]?.areaMm2 ?? 0) / areaOf(contour) - 1)).toBeLessThan(1e-6);
        }
        expect(flashes).toHaveLength(board.copper.top.length - wanted.length);
        for (const end of ['top-mask.gbr', 'profile.gbr']) readGerber(bytesOf(board, end));
      }),
      { seed: 20260517, numRuns: 60 },
    );
  });
});

describe('boards of the examples', () => {
  const files = exampleAssemblies().flatMap(({ name, assembly }) =>
    emitGerber(assembly)
      .filter(({ path }) => path.endsWith('.gbr'))
      .map(({ path, bytes }) => ({ name: `${name} ${path}`, bytes })),
  );

  test('there is at least one', () => {
    expect(files.length).toBeGreaterThanOrEqual(6);
  });

  test.each(files)('$name is in the grammar and plots without a warning', async ({ bytes }) => {
    expect(readGerber(bytes).regions.length + readGerber(bytes).strokes).toBeGreaterThan(0);
    expect((await readWithPlotter(bytes)).warnings).toEqual([]);
  });
});

/** A board of any size with rectangles, discs, polygons and round-ended bars of copper, dark and clear, anywhere on it. */
function randomBoard(): fc.Arbitrary<BoardPart> {
  const mm = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const place = fc.record({ x: mm(-300, 300), y: mm(-300, 300) });
  const shape = fc.oneof(
    mm(3, 60).map((radius) => circleContour({ x: 0, y: 0 }, radius)),
    fc.tuple(mm(6, 90), mm(6, 90), mm(0, 1)).map(([widthMm, heightMm, roundness]) =>
      roundedRectangleContour({
        centre: { x: 0, y: 0 },
        widthMm,
        heightMm,
        radiusMm: (roundness * Math.min(widthMm, heightMm)) / 2,
      }),
    ),
    fc.tuple(fc.integer({ min: 3, max: 9 }), mm(5, 50)).map(([count, radius]) =>
      polygonContour(
        Array.from({ length: count }, (_, index) => {
          const angle = (2 * Math.PI * index) / count;
          return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
        }),
      ),
    ),
    fc.tuple(mm(3, 30), mm(0.2, 0.9)).map(([radius, bite]) => bittenDisc(radius, bite)),
  );
  const contour = fc.tuple(shape, mm(-180, 180), place).map(([c, turn, at]) => moveContour(turnContour(c, turn), at));
  const piece: fc.Arbitrary<CopperPiece> = fc.record({
    purpose: fc.constantFrom<CopperPiece['purpose'][]>('patch', 'line', 'plane', 'clearance'),
    polarity: fc.constantFrom<('dark' | 'clear')[]>('dark', 'clear'),
    contour,
  });
  const land = fc.record({
    purpose: fc.constant('land' as const),
    polarity: fc.constant('dark' as const),
    contour: fc.tuple(place, mm(0.3, 5)).map(([at, radius]) => circleContour(at, radius)),
  });
  return fc
    .record({ top: fc.array(fc.oneof(piece, land), { minLength: 1, maxLength: 8 }), at: place, size: mm(20, 400) })
    .map(({ top, at, size }) => ({
      ...patchBoard,
      marks: [],
      outline: { outer: rectangleContour({ centre: at, widthMm: size, heightMm: size / 2 }), cutouts: [], holes: [] },
      copper: { top, bottom: [] },
      maskOpenings: { top: top.map((copper) => copper.contour), bottom: [] },
    }));
}

/** A disc with a sector of angle 2π·bite taken out: one arc that may turn through more than half a circle. */
function bittenDisc(radius: number, bite: number): Contour {
  const angle = 2 * Math.PI * bite;
  const centre = { x: 0, y: 0 };
  return {
    kind: 'path',
    start: { x: radius * Math.cos(angle), y: radius * Math.sin(angle) },
    segments: [
      { kind: 'arc', to: { x: radius, y: 0 }, centre, sense: 'ccw' },
      { kind: 'line', to: centre },
      { kind: 'line', to: { x: radius * Math.cos(angle), y: radius * Math.sin(angle) } },
    ],
  };
}

describe('copper area by an independent reader (gerber-parser, gerber-plotter, Clipper2)', () => {
  test.each([
    ['disc patch', patchBoard, 'top-copper.gbr', discArea],
    ['inset-fed patch with line and lands', reflectorBoard, 'top-copper.gbr', topArea],
    ['plane with clearance', reflectorBoard, 'bottom-copper.gbr', planeArea],
    ['mask opening', patchBoard, 'top-mask.gbr', Math.PI * 20.1 ** 2],
  ])('%s', async (_, board, end, area) => {
    const image = await readWithPlotter(bytesOf(board, end));
    expect(image.warnings).toEqual([]);
    expect(Math.abs(image.areaMm2 / area - 1)).toBeLessThan(1e-4);
  });

  test('the patch lies where the model has it', async () => {
    const { bounds: found } = await readWithPlotter(bytesOf(patchBoard, 'top-copper.gbr'));
    for (const [index, wanted] of [5, 5, 45, 45].entries()) expect(found[index]).toBeCloseTo(wanted, 5);
  });

  test('etch compensation makes each edge 0.03 mm larger and the clearance smaller', async () => {
    const plain = await readWithPlotter(bytesOf(reflectorBoard, 'top-copper.gbr'));
    const grown = await readWithPlotter(bytesOf(etched, 'top-copper.gbr'));
    for (const [index, sign] of [-1, -1, 1, 1].entries())
      expect((grown.bounds[index] ?? 0) - (plain.bounds[index] ?? 0)).toBeCloseTo(sign * 0.03, 5);
    const below = await readWithPlotter(bytesOf(etched, 'bottom-copper.gbr'));
    expect(below.areaMm2).toBeCloseTo(planeArea + Math.PI * (2.05 ** 2 - 2.02 ** 2), 2);
  });
});

describeWithClients(['gerbv', 'python-images'], 'layers drawn by gerbv', () => {
  const layers = ['top-copper', 'bottom-copper', 'top-mask', 'bottom-mask', 'top-legend', 'profile'];
  test.each(layers)('%s: no complaint, and the area that the other reader finds', async (layer) => {
    const bytes = bytesOf(reflectorBoard, `${layer}.gbr`);
    const vector = await readWithPlotter(bytes);
    const raster = drawWithGerbv(bytes, vector.bounds);
    expect(raster.complaints).toEqual([]);
    // Counting pixels may be off by half of one along every edge; a wrong radius or a missing piece is far more.
    const tolerance = 0.0002 * vector.areaMm2 + (vector.perimeterMm * raster.pixelMm) / 2;
    expect(Math.abs(raster.areaMm2 - vector.areaMm2)).toBeLessThan(tolerance);
  });

  test('complains about a file without its end', () => {
    const cut = bytesOf(patchBoard, 'top-copper.gbr').slice(0, -5);
    expect(drawWithGerbv(cut, [0, 0, 50, 50]).complaints).not.toEqual([]);
  });
});

describe('drill files', () => {
  const holes = (board: BoardPart, plated: boolean): readonly Hole[] =>
    board.outline.holes.filter((hole) => hole.plated === plated);

  function expectHits(
    hits: readonly { xMm: number; yMm: number; diameterMm: number }[],
    board: BoardPart,
    plated: boolean,
  ) {
    const wanted = holes(board, plated);
    expect(hits).toHaveLength(wanted.length);
    for (const hole of wanted) {
      const { x, y } = movedToCorner(board, hole.centre);
      const near = hits.filter((hit) => Math.hypot(hit.xMm - x, hit.yMm - y) < 0.006);
      expect(near).toHaveLength(1);
      expect(Math.abs((near[0]?.diameterMm ?? 0) - hole.diameterMm)).toBeLessThan(0.02);
    }
  }

  test.each([true, false])('plated %s: gerber-parser reads every hole of the board', async (plated) => {
    const end = plated ? '-plated.drl' : '-nonplated.drl';
    expectHits(await drillWithParser(bytesOf(reflectorBoard, end)), reflectorBoard, plated);
  });

  describeWithClients(['gerbv'], 'read by gerbv', () => {
    test.each([true, false])('plated %s: every hole of the board', (plated) => {
      const { complaints, hits } = drillWithGerbv(bytesOf(reflectorBoard, plated ? '-plated.drl' : '-nonplated.drl'));
      expect(complaints).toEqual([]);
      expectHits(hits, reflectorBoard, plated);
    });
  });
});
