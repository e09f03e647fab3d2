import {
  type Assembly,
  circleContour,
  type Hole,
  type PlatePart,
  polygonContour,
  rectangleContour,
} from '@sheetwave/geometry';
import { describe, expect, test } from 'vitest';
import { emitDxf } from './emit.ts';
import { smallestCutHoleMm, splitHoles } from './machined-holes.ts';
import { noteLines, oneLine } from './notes.ts';
import { plateDrawing } from './plate.ts';

const own = { source: 'given in the test', certainty: 'own' } as const;
const centre = { x: 0, y: 0 };
const hand: PlatePart['process'] = {
  ...own,
  id: 'hand',
  label: 'hand tools',
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
  leastWebMm: 1,
  toleranceMm: 0.2,
};
const laser: PlatePart['process'] = { ...hand, id: 'laser', label: 'laser', kerfMm: 0.2, smallestRadiusMm: 0.4 };

const hole = (diameterMm: number, x: number): Hole => ({
  purpose: 'fixing',
  centre: { x, y: 0 },
  diameterMm,
  plated: false,
});

const plate: PlatePart = {
  form: 'plate',
  role: 'patch',
  id: 'patch-driven',
  name: 'driven patch',
  quantity: 4,
  sheet: {
    ...own,
    kind: 'sheet',
    id: 'brass-1',
    label: 'brass sheet 1 mm',
    material: { name: 'brass', densityKgM3: 8500, conductivitySm: 1.5e7 },
    thicknessMm: 1,
    sizesMm: [],
  },
  outline: {
    outer: rectangleContour({ centre, widthMm: 40, heightMm: 30 }),
    cutouts: [rectangleContour({ centre: { x: 0, y: 10 }, widthMm: 6, heightMm: 2 })],
    holes: [hole(3.2, 0), hole(0.9, 10)],
  },
  marks: [],
  process: hand,
};

const design = { name: 'Heron Lock panel', revision: 'C', date: undefined } as Assembly['design'];
const assembly = (...parts: Assembly['parts']): Assembly => ({ design, parts }) as unknown as Assembly;

/** The layers a drawing uses with what is on each, notes apart. */
function cutting(part: PlatePart): readonly (readonly [string, string])[] {
  const { entities } = plateDrawing(part, design);
  return entities.filter(({ layer }) => layer !== 'NOTE').map(({ layer, kind }) => [layer, kind] as const);
}

describe('one file for each plate', () => {
  test('is named by the part', () => {
    const files = emitDxf(assembly(plate, { ...plate, id: 'reflector' }));
    expect(files.map(({ path, kind, part }) => [path, kind, part])).toEqual([
      ['cut/patch-driven.dxf', 'cut-dxf', 'patch-driven'],
      ['cut/reflector.dxf', 'cut-dxf', 'reflector'],
    ]);
  });

  test('has the same bytes each time', () => {
    expect(emitDxf(assembly(plate))).toEqual(emitDxf(assembly(plate)));
  });
});

describe('who makes the holes', () => {
  test('by hand or on a mill all are drilled', () => {
    expect(splitHoles(plate).drilled).toHaveLength(2);
    expect(splitHoles({ ...plate, process: { ...hand, id: 'mill' } }).cut).toHaveLength(0);
  });

  test('a laser cuts what is at least as wide as the sheet is thick', () => {
    expect(smallestCutHoleMm({ ...plate, process: laser })).toBe(1);
    expect(cutting({ ...plate, process: laser })).toEqual([
      ['DRILL', 'circle'],
      ['CUT_INNER', 'circle'],
      ['CUT_INNER', 'loop'],
      ['CUT_OUTER', 'loop'],
    ]);
  });

  test('a hole of exactly the smallest size is cut', () => {
    const exact = { ...plate, process: laser, outline: { ...plate.outline, holes: [hole(1, 0), hole(0.999, 5)] } };
    expect(splitHoles(exact).cut).toEqual([hole(1, 0)]);
  });

  test('twice the smallest radius counts where it is more', () => {
    expect(smallestCutHoleMm({ ...plate, process: { ...laser, smallestRadiusMm: 1.5 } })).toBe(3);
  });
});

describe('kerf and allowance', () => {
  const compensated: PlatePart = { ...plate, process: { ...laser, compensateKerf: true } };

  test('the outside grows and cut holes shrink by half the kerf, drilled holes do not', () => {
    const { entities } = plateDrawing(compensated, design);
    const radius = (layer: string) =>
      entities.flatMap((entity) => (entity.kind === 'circle' && entity.layer === layer ? [entity.radiusMm] : []));
    expect(radius('CUT_INNER')).toEqual([expect.closeTo(1.5, 9)]);
    expect(radius('DRILL')).toEqual([0.45]);
    const outer = entities.find(({ layer }) => layer === 'CUT_OUTER');
    const xs = outer?.kind === 'loop' ? outer.vertices.map(({ x }) => x) : [];
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([expect.closeTo(-20.1, 9), expect.closeTo(20.1, 9)]);
  });

  test('the file says which it is', () => {
    expect(noteLines(plate, design)).toContain('nominal outline, no kerf allowance');
    expect(noteLines(compensated, design)).toContain('tool path, kerf 0.2 mm compensated');
  });

  test('stock to file off has a line of its own outside the finish line', () => {
    const disc = { ...plate.outline, outer: circleContour(centre, 20), cutouts: [], holes: [] };
    const rough: PlatePart = { ...plate, process: { ...hand, allowanceMm: 0.5 }, outline: disc };
    const circles = plateDrawing(rough, design).entities.flatMap((entity) =>
      entity.kind === 'circle' ? [[entity.layer, entity.radiusMm]] : [],
    );
    expect(circles).toEqual([
      ['ROUGH_CUT', 20.5],
      ['CUT_OUTER', 20],
    ]);
    expect(cutting(plate).map(([layer]) => layer)).not.toContain('ROUGH_CUT');
  });
});

describe('notes', () => {
  test('name the part, its material, number, revision and process', () => {
    const lines = noteLines(plate, design);
    expect(lines).toEqual(
      expect.arrayContaining([
        'Heron Lock panel: driven patch',
        'revision C',
        'material: brass sheet 1 mm',
        'thickness: 1 mm',
        'quantity: 4 for one antenna',
        'process: hand tools',
        'drill 1 x 0.9 mm (fixing)',
        'drill 1 x 3.2 mm (fixing)',
      ]),
    );
  });

  test('the check line is 100 mm long', () => {
    const lines = plateDrawing(plate, design).entities.flatMap((entity) =>
      entity.kind === 'line' && entity.layer === 'NOTE'
        ? [Math.hypot(entity.to.x - entity.from.x, entity.to.y - entity.from.y)]
        : [],
    );
    expect(lines).toContain(100);
  });

  test('what a person typed becomes one line', () => {
    expect(oneLine(' North\n\tmast\u0000 ')).toBe('North mast');
    expect(oneLine('x'.repeat(300))).toHaveLength(250);
  });
});

describe('marks', () => {
  test('lines and circles are engraved, words are notes', () => {
    const marked: PlatePart = {
      ...plate,
      marks: [
        { kind: 'line', purpose: 'centre', from: { x: 0, y: -15 }, to: { x: 0, y: 15 } },
        { kind: 'line', purpose: 'centre', from: { x: 0, y: -15 }, to: { x: 0, y: 15 } },
        { kind: 'circle', purpose: 'solder-land', centre, diameterMm: 6 },
        { kind: 'text', purpose: 'feed-edge', at: centre, text: 'feed edge', heightMm: 2 },
      ],
    };
    const engraved = cutting(marked).filter(([layer]) => layer === 'ENGRAVE');
    expect(engraved).toEqual([
      ['ENGRAVE', 'line'],
      ['ENGRAVE', 'circle'],
    ]);
    const words = plateDrawing(marked, design).entities.filter((entity) => entity.kind === 'text');
    expect(words.map(({ text, layer }) => [text, layer])).toContainEqual(['feed edge', 'NOTE']);
  });
});

describe('inside corners', () => {
  const corner: PlatePart = {
    ...plate,
    outline: {
      outer: polygonContour([
        { x: 0, y: 0 },
        { x: 40, y: 0 },
        { x: 40, y: 10 },
        { x: 15, y: 10 },
        { x: 15, y: 30 },
        { x: 0, y: 30 },
      ]),
      cutouts: [],
      holes: [],
    },
    process: { ...laser, insideCorners: 'round' },
  };

  test('come out round or relieved, and the file says which', () => {
    const notes = (process: PlatePart['process']): string[] =>
      plateDrawing({ ...corner, process }, design).entities.flatMap((e) => (e.kind === 'text' ? [e.text] : []));
    expect(notes(corner.process)).toContain('inside corners: 1 rounded to 0.4 mm');
    expect(notes({ ...corner.process, insideCorners: 'dog-bone' })).toContain(
      'inside corners: 1 with a dog-bone relief of radius 0.4 mm',
    );
    expect(notes({ ...corner.process, insideCorners: 'as-drawn' }).join()).not.toMatch(/inside corners/);
  });

  test('carry their arc as a bulge: a quarter turn to the right is −tan 22.5° (computed)', () => {
    const outer = plateDrawing(corner, design).entities.find(({ layer }) => layer === 'CUT_OUTER');
    const bulges = outer?.kind === 'loop' ? outer.vertices.map(({ bulge }) => bulge).filter((b) => b !== 0) : [];
    expect(bulges).toEqual([expect.closeTo(-Math.tan(Math.PI / 8), 9)]);
  });
});

describe('sheets and coupons', () => {
  const cut: PlatePart = { ...plate, process: laser, sheet: { ...plate.sheet, sizesMm: [[100, 100]] } };

  test('one file for each sheet, one for each sheet and process with a kerf; none without sizes or kerf', () => {
    expect(emitDxf(assembly(cut)).map(({ path, kind }) => [path, kind])).toEqual([
      ['cut/patch-driven.dxf', 'cut-dxf'],
      ['cut/sheet-brass-1-1.dxf', 'sheet-dxf'],
      ['cut/kerf-coupon-laser-brass-1.dxf', 'cut-dxf'],
    ]);
    expect(emitDxf(assembly(plate))).toHaveLength(1);
  });

  test('bridges have a file of their own, and only small parts get it', () => {
    const held = { ...cut, process: { ...laser, tabs: { count: 2, widthMm: 0.5, belowMm: 50 } } };
    expect(emitDxf(assembly(held)).map(({ path }) => path)).toContain('cut/patch-driven-tabbed.dxf');
    const large = { ...held, process: { ...held.process, tabs: { count: 2, widthMm: 0.5, belowMm: 40 } } };
    expect(emitDxf(assembly(large)).map(({ path }) => path)).not.toContain('cut/patch-driven-tabbed.dxf');
  });
});
