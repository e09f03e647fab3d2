import {
  type Assembly,
  type BoardPart,
  circleContour,
  etchCompensated,
  rectangleContour,
  signedArea,
} from '@sheetwave/geometry';
import { describe, expect, test } from 'vitest';
import { copperBody, padFunction } from './copper.ts';
import { emitGerber } from './emit.ts';
import { boardFrame, gridUnits } from './frame.ts';
import { outlineCommands } from './region.ts';

const own = { source: 'given in the test', certainty: 'own' } as const;
const centre = { x: 0, y: 0 };

const board: BoardPart = {
  form: 'board',
  role: 'patch',
  id: 'patch-outer',
  name: 'outer patch',
  quantity: 2,
  laminate: {
    ...own,
    kind: 'laminate',
    id: 'low-loss',
    label: 'low-loss laminate',
    permittivity: 3.55,
    lossTangent: 0.0027,
    atHz: 1e10,
    thicknessMm: 1.524,
    copperMm: 0.035,
    densityKgM3: 1850,
    lossy: false,
  },
  outline: {
    outer: rectangleContour({ centre, widthMm: 50, heightMm: 40 }),
    cutouts: [],
    holes: [{ purpose: 'fixing', centre, diameterMm: 3.2, plated: false }],
  },
  copper: { top: [], bottom: [{ purpose: 'patch', polarity: 'dark', contour: circleContour(centre, 15) }] },
  maskOpenings: { top: [], bottom: [] },
  marks: [],
  process: {
    ...own,
    id: 'etch',
    label: 'etching',
    kerfMm: 0,
    compensateKerf: false,
    allowanceMm: 0,
    smallestRadiusMm: 0,
    lineWidthMm: 0,
    insideCorners: 'as-drawn',
    leadInMm: 0,
    tabs: { count: 0, widthMm: 0.5, belowMm: 50 },
    spacingMm: 3,
    edgeMarginMm: 5,
    etchFactor: 0,
    undercutMm: 0,
    leastWebMm: 0.2,
    toleranceMm: 0.05,
  },
};

const design = { name: 'Heron Lock panel', revision: 'B', date: undefined } as Assembly['design'];
const emit = (part: BoardPart, changed: Partial<Assembly['design']> = {}) =>
  emitGerber({ design: { ...design, ...changed }, parts: [part] } as unknown as Assembly);
const textOf = (files: ReturnType<typeof emit>, end: string): string =>
  new TextDecoder().decode(files.find(({ path }) => path.endsWith(end))?.bytes);

describe('the files of a board', () => {
  test('list the sides that have copper and the holes there are', () => {
    expect(emit(board).map(({ path, kind }) => [path, kind])).toEqual([
      ['copper/patch-outer-bottom-copper.gbr', 'copper-gerber'],
      ['copper/patch-outer-bottom-mask.gbr', 'mask-gerber'],
      ['copper/patch-outer-top-legend.gbr', 'legend-gerber'],
      ['copper/patch-outer-profile.gbr', 'profile-gerber'],
      ['drill/patch-outer-nonplated.drl', 'drill-xnc'],
      ['copper/patch-outer-job.gbrjob', 'gerber-job'],
    ]);
  });

  test('are the same bytes each time', () => {
    expect(emit(board)).toEqual(emit(board));
  });

  test('carry a date only when the design does', () => {
    for (const { bytes } of emit(board)) expect(new TextDecoder().decode(bytes)).not.toContain('CreationDate');
    for (const { bytes } of emit(board, { date: '2026-05-17' }))
      expect(new TextDecoder().decode(bytes)).toContain('2026-05-17T00:00:00+00:00');
  });

  test('are all listed in the job file, by paths that start from it', () => {
    const files = emit(board);
    const job = JSON.parse(textOf(files, '.gbrjob'));
    const listed = job.FilesAttributes.map(({ Path }: { Path: string }) => new URL(Path, 'file:///copper/').pathname);
    expect(listed).toEqual(files.slice(0, -1).map(({ path }) => `/${path}`));
    expect(job.GeneralSpecs).toMatchObject({ Size: { X: 50, Y: 40 }, LayerNumber: 1, BoardThickness: 1.559 });
  });

  test('say that a side without mask openings is covered', () => {
    expect(textOf(emit(board), 'bottom-mask.gbr')).toContain('G04 no openings: this side is covered');
  });
});

describe('etching', () => {
  const etched = { ...board, process: { ...board.process, undercutMm: 0.03 } };

  test('copper grows by the undercut at every edge, clear areas shrink, the plane stays', () => {
    const disc = circleContour(centre, 5);
    const radius = (piece: Parameters<typeof etchCompensated>[0]) => {
      const { contour } = etchCompensated(piece, 0.03);
      return contour.kind === 'circle' ? contour.radiusMm : undefined;
    };
    expect(radius({ purpose: 'patch', polarity: 'dark', contour: disc })).toBeCloseTo(5.03, 12);
    expect(radius({ purpose: 'land', polarity: 'dark', contour: disc })).toBeCloseTo(5.03, 12);
    expect(radius({ purpose: 'clearance', polarity: 'clear', contour: disc })).toBeCloseTo(4.97, 12);
    expect(radius({ purpose: 'plane', polarity: 'dark', contour: disc })).toBe(5);
    const square = rectangleContour({ centre, widthMm: 10, heightMm: 4 });
    const grown = etchCompensated({ purpose: 'line', polarity: 'dark', contour: square }, 0.03).contour;
    expect(signedArea(grown)).toBeCloseTo(10.06 * 4.06, 9);
  });

  test('the file says so', () => {
    expect(textOf(emit(etched), 'bottom-copper.gbr')).toContain('copper drawn 0.03 mm larger at each edge');
    expect(textOf(emit(board), 'bottom-copper.gbr')).toContain('no etch compensation');
  });
});

describe('drawing', () => {
  test('coordinates are whole nanometres from the lower left corner', () => {
    const frame = boardFrame(board);
    expect(frame.toGrid({ x: -25, y: -20 })).toEqual({ x: 0, y: 0 });
    expect(frame.toGrid({ x: 0.0000004, y: 1e-9 })).toEqual({ x: 25_000_000, y: 20_000_000 });
    expect(() => gridUnits(Number.NaN)).toThrow(/NaN/);
    expect(() => gridUnits(10_000)).toThrow(/does not fit/);
  });

  test('a circle is two half turns that come back exactly', () => {
    expect(outlineCommands(circleContour(centre, 5), boardFrame(board))).toEqual([
      'X30000000Y20000000D02*',
      'G03*',
      'X20000000Y20000000I-5000000J0D01*',
      'X30000000Y20000000I5000000J0D01*',
    ]);
  });

  test('an arc too short for its centre to be found becomes a draw', () => {
    const tiny = outlineCommands(
      {
        kind: 'path',
        start: { x: 0, y: 0 },
        segments: [
          { kind: 'line', to: { x: 5, y: 0 } },
          { kind: 'arc', to: { x: 5.0005, y: 0.0005 }, centre: { x: 5, y: 0.0005 }, sense: 'ccw' },
          { kind: 'line', to: { x: 0, y: 5 } },
          { kind: 'line', to: { x: 0, y: 0 } },
        ],
      },
      boardFrame(board),
    );
    expect(tiny.join()).not.toMatch(/G02|G03|I/);
  });

  test('lands are flashed, one aperture for each function and size', () => {
    const land = (x: number) =>
      ({ purpose: 'land', polarity: 'dark', contour: circleContour({ x, y: 0 }, 1) }) as const;
    const part: BoardPart = { ...board, copper: { top: [land(0), land(10), land(12)], bottom: [] } };
    expect(copperBody(part, 'top', boardFrame(part))).toEqual([
      '%TA.AperFunction,WasherPad*%',
      '%ADD10C,2.000000*%',
      '%TD*%',
      '%TA.AperFunction,SMDPad,CuDef*%',
      '%ADD11C,2.000000*%',
      '%TD*%',
      'G75*',
      'D10*',
      'X25000000Y20000000D03*',
      'D11*',
      'X35000000Y20000000D03*',
      'D11*',
      'X37000000Y20000000D03*',
    ]);
    expect(padFunction({ purpose: 'connector-pin', centre, diameterMm: 1, plated: true })).toBe('ComponentPad');
  });

  test('clear pieces are drawn between dark ones in paint order', () => {
    const piece = (polarity: 'dark' | 'clear', radius: number) =>
      ({ purpose: 'plane', polarity, contour: circleContour(centre, radius) }) as const;
    const part: BoardPart = {
      ...board,
      copper: { top: [piece('dark', 9), piece('clear', 6), piece('dark', 3)], bottom: [] },
    };
    const order = copperBody(part, 'top', boardFrame(part)).filter((line) => /LP|G36/.test(line));
    expect(order).toEqual(['G36*', '%LPC*%', 'G36*', '%LPD*%', 'G36*']);
  });
});
