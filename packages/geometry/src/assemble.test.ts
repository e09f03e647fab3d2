import type { DesignFile } from '@sheetwave/design';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assemble } from './assemble.ts';
import type { Assembly, HarnessSplit, PlatePart, RodPart, TubePart } from './assembly.ts';
import { outlineArea } from './contour-measure.ts';
import { assemblyOf, designOf, etchedArray, rodArray, stripArray } from './testing/designs.ts';
import { validate } from './validate.ts';

const part = <T>(assembly: Assembly, id: string): T => {
  const found = assembly.parts.find((one) => one.id === id);
  if (!found) throw new Error(`no part ${id} among ${assembly.parts.map((one) => one.id).join(', ')}`);
  return found as T;
};

const codes = (file: DesignFile): string[] => assemble(designOf(file)).findings.map((finding) => finding.code);

describe('the stack', () => {
  it('adds spacers and sheets outward', () => {
    expect(assemblyOf(rodArray).layerHeights).toEqual([
      { undersideMm: 5, topMm: 5.5, bodyUndersideMm: 5, bodyTopMm: 5.5 },
      { undersideMm: 11.5, topMm: 12, bodyUndersideMm: 11.5, bodyTopMm: 12 },
    ]);
  });

  it('puts the metal of a board layer on the side the design says', () => {
    const layer = {
      name: 'driven',
      shape: 'rectangle' as const,
      length: '20 mm',
      width: '26 mm',
      board: 'fr4-0.8-35',
      spacer: { printed: '5 mm', outer: '8 mm' },
    };
    const [outward] = assemblyOf({ ...rodArray, hardware: {}, layer: [layer] }).layerHeights;
    expect(outward?.undersideMm).toBeCloseTo(5.8, 9);
    expect(outward?.bodyTopMm).toBeCloseTo(5.835, 9);
    const [inward] = assemblyOf({
      ...rodArray,
      hardware: {},
      layer: [{ ...layer, copper_side: 'inward' }],
    }).layerHeights;
    expect(inward).toEqual({ undersideMm: 5, topMm: 5.035, bodyUndersideMm: 5, bodyTopMm: expect.closeTo(5.835, 9) });
  });

  it('counts spacers, screws and nuts of all stacks, with a nut behind and a screw in front of a male/female chain', () => {
    const assembly = assemblyOf(rodArray);
    const counts = Object.fromEntries(assembly.parts.map((one) => [one.id, one.quantity]));
    expect(counts).toMatchObject({
      'm3-mf-5-brass': 4,
      'm3-mf-6-brass': 4,
      'm3-pan-6-brass': 4,
      'm3-nut-brass': 4,
      'patch-driven': 4,
      reflector: 1,
    });
    for (const one of assembly.parts) {
      expect(assembly.placements.filter((placement) => placement.part === one.id)).toHaveLength(one.quantity);
    }
  });

  it('refuses two studs that meet, two threads that nothing joins, and plain spacers among threaded ones', () => {
    const withSpacers = (first: string, second: string): DesignFile => ({
      ...rodArray,
      layer: rodArray.layer.map((layer, index) => ({ ...layer, spacer: index === 0 ? first : second })),
    });
    expect(codes(withSpacers('m3-mm-5-brass', 'm3-mf-6-brass'))).toContain('two-studs-meet');
    expect(codes(withSpacers('m3-ff-5-brass', 'm3-ff-6-brass'))).toContain('nothing-joins');
    expect(codes(withSpacers('m3-mf-5-brass', 'plain-m3-6-nylon'))).toContain('mixed-spacers');
  });

  it('refuses a screw that is longer than the thread is deep, and one that does not reach', () => {
    const screw = (id: string): DesignFile => ({
      ...rodArray,
      hardware: { thread: 'M3', screw: id, nut: 'm3-nut-brass' },
    });
    expect(codes(screw('m3-pan-20-brass'))).toContain('screw-too-long');
    const printed = rodArray.layer.map((layer) => ({ ...layer, spacer: { printed: '6 mm', outer: '8 mm' } }));
    expect(
      codes({ ...rodArray, layer: printed, hardware: { thread: 'M3', screw: 'm3-pan-6-brass', nut: 'm3-nut-brass' } }),
    ).toContain('screw-too-short');
  });
});

describe('the lattice', () => {
  it('is centred, row 0 at the bottom, feeds below the centres', () => {
    expect(assemblyOf(rodArray).elements).toEqual([
      { row: 0, column: 0, centre: { x: -22, y: -20 }, feedPoint: { x: -22, y: -26 } },
      { row: 0, column: 1, centre: { x: 22, y: -20 }, feedPoint: { x: 22, y: -26 } },
      { row: 1, column: 0, centre: { x: -22, y: 20 }, feedPoint: { x: -22, y: 14 } },
      { row: 1, column: 1, centre: { x: 22, y: 20 }, feedPoint: { x: 22, y: 14 } },
    ]);
  });

  it('puts feeds to the left of the centres when hung horizontally', () => {
    const [first] = assemblyOf({ ...rodArray, lattice: { ...rodArray.lattice, orientation: 'horizontal' } }).elements;
    expect(first?.feedPoint).toEqual({ x: -28, y: -20 });
  });
});

describe('the harness', () => {
  it('gives every element a way of one length from the coax, whatever the lattice (property)', () => {
    const power = fc.integer({ min: 0, max: 2 }).map((exponent) => 2 ** exponent);
    const pitch = fc.integer({ min: 40, max: 60 });
    fc.assert(
      fc.property(
        power,
        power,
        pitch,
        pitch,
        fc.constantFrom('vertical' as const, 'horizontal' as const),
        (rows, columns, rowPitch, columnPitch, orientation) => {
          fc.pre(rows * columns > 1);
          const assembly = assemblyOf({
            ...stripArray,
            lattice: { rows, columns, row_pitch: `${rowPitch} mm`, column_pitch: `${columnPitch} mm`, orientation },
            harness: { kind: 'strip', height: '1 mm', sheet: 'brass-0.5', width: '1 mm', stem: '4 mm' },
          });
          const lengths = wayLengths(assembly);
          expect(lengths).toHaveLength(rows * columns);
          for (const length of lengths) expect(length).toBeCloseTo(lengths[0] ?? Number.NaN, 6);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('bends the outermost rods up into the patches and butts the inner ones against them', () => {
    const assembly = assemblyOf(rodArray);
    const outer = part<RodPart>(assembly, 'rod-level-1');
    // 0.5 mm above the driven patch (top at 5.5 mm), the axis at 2.1 mm: 3.9 mm of leg.
    expect(outer.corners[0]).toEqual({ x: -22, y: 0, z: 3.9 });
    // 44 + 2 x 3.9 less two corners of 2 x 2.25 mm, plus two quarter circles of 2.25 mm.
    expect(outer.developedLengthMm).toBeCloseTo(44 + 7.8 - 9 + Math.PI * 2.25, 9);
    expect(outer.quantity).toBe(2);
    // Row pitch less half a rod at each end.
    expect(part<RodPart>(assembly, 'rod-level-0').developedLengthMm).toBeCloseTo(40 - 1.5, 9);
  });

  it('slides tubes over the arms that have a section, clear of the joint', () => {
    const level = [{ section: { at: 'inner' as const, length: '12 mm', tube: 'brass-tube-2.5x0.45' } }, {}];
    const assembly = assemblyOf({
      ...rodArray,
      harness: { ...rodArray.harness, kind: 'rod', level } as DesignFile['harness'],
    });
    expect(part<TubePart>(assembly, 'tube-level-0')).toMatchObject({ quantity: 2, lengthMm: 12 });
  });

  it('joins 2 x 2 by four equal rods in a star', () => {
    const assembly = assemblyOf({
      ...rodArray,
      harness: { ...rodArray.harness, kind: 'rod', topology: 'star' } as DesignFile['harness'],
    });
    const rod = part<RodPart>(assembly, 'rod-level-0');
    expect(rod.quantity).toBe(4);
    expect(rod.corners[1]?.x).toBeCloseTo(Math.hypot(22, 20), 9);
  });

  it('refuses levels that would lie on top of each other, bends that do not fit and probes that are not the rod', () => {
    const column: DesignFile = {
      ...rodArray,
      lattice: { rows: 4, columns: 1, row_pitch: '44 mm', orientation: 'vertical' },
    };
    expect(codes(column)).toContain('harness-overlaps');
    expect(
      codes({ ...rodArray, harness: { ...rodArray.harness, bend_radius: '4 mm' } as DesignFile['harness'] }),
    ).toContain('leg-too-short');
    expect(codes({ ...rodArray, feed: { kind: 'probe', from_edge: '4 mm', probe_diameter: '1 mm' } })).toContain(
      'probe-is-not-the-rod',
    );
  });

  it('cuts a strip harness as one sheet with a hole at the coax and at every feed', () => {
    const strip = part<PlatePart>(assemblyOf(stripArray), 'harness-strip');
    expect(strip.outline.cutouts).toEqual([]);
    expect(strip.outline.holes.map((hole) => hole.purpose)).toEqual(['coax', 'feed', 'feed', 'feed', 'feed']);
    // Three bars of 3 mm: two of 44 and one of 40 mm, less the overlaps, plus lands; the bars alone are a lower bound.
    expect(outlineArea(strip.outline)).toBeGreaterThan((44 + 44 + 37) * 3 - 5 * Math.PI * 1.7 ** 2);
  });
});

describe('inside corners of a strip', () => {
  it('are only worth a note where the process rounds them in the cut files anyway', () => {
    const file = (process: 'hand' | 'waterjet'): DesignFile => ({
      ...stripArray,
      harness: { ...stripArray.harness, process } as DesignFile['harness'],
    });
    const corners = (process: 'hand' | 'waterjet') =>
      validate(assemblyOf(file(process)))
        .filter((finding) => /corner/.test(finding.code))
        .map(({ code, severity }) => [code, severity]);
    expect(corners('waterjet')).toEqual([['corner-rounded', 'note']]);
    expect(corners('hand')).toEqual([['tight-corner', 'warning']]);
  });
});

describe('the reflector', () => {
  it('takes the size of the rule and says which part of it decides', () => {
    const assembly = assemblyOf(rodArray);
    // Pitch 44 + width 26 + 2 x 6 gaps of 5 mm = 130; 40 + 20 + 60 = 120.
    expect(assembly.reflector).toEqual({ widthMm: 130, heightMm: 120, thicknessMm: 1 });
    expect(assembly.reflectorRule).toContain('six times the gap');
  });

  it('refuses corners rounder than the size of the rule has room for', () => {
    const { assembly, findings } = assemble(
      designOf({ ...rodArray, reflector: { sheet: 'brass-1.0', corner_radius: '90 mm' } }),
    );
    expect(assembly).toBeUndefined();
    expect(findings).toMatchObject([{ severity: 'error', path: 'reflector.corner_radius', value: '90 mm' }]);
  });

  it('refuses a size that no workshop has', () => {
    const lattice = { rows: 2, columns: 2, row_pitch: '4.99 m', column_pitch: '44 mm' };
    const { findings } = assemble(designOf({ ...rodArray, lattice }));
    expect(findings).toMatchObject([{ severity: 'error', path: 'reflector.size', value: '130 mm x 5070 mm' }]);
  });

  it('warns that a coax cannot be soldered to aluminium', () => {
    expect(codes({ ...rodArray, reflector: { sheet: 'aluminium-1.5' } })).toContain('cannot-be-soldered');
    expect(codes(rodArray)).toEqual([]);
  });

  it('drills a fixing hole under every stack and one for the coax at the middle of the feeds', () => {
    const reflector = part<PlatePart>(assemblyOf(rodArray), 'reflector');
    const by = (purpose: string) => reflector.outline.holes.filter((hole) => hole.purpose === purpose);
    expect(by('fixing').map((hole) => hole.diameterMm)).toEqual([3.4, 3.4, 3.4, 3.4]);
    expect(by('coax').map((hole) => hole.centre)).toEqual([{ x: 0, y: -6 }]);
  });

  it('etches patches, lines and lands on a board, and the plane with its clearance behind', () => {
    const board = assemblyOf(etchedArray).parts.find((one) => one.form === 'board');
    if (board?.form !== 'board') throw new Error('no board');
    const count = (purpose: string) => board.copper.top.filter((piece) => piece.purpose === purpose).length;
    expect(count('patch')).toBe(4);
    expect(count('land')).toBe(5);
    expect(board.copper.bottom.map((piece) => [piece.purpose, piece.polarity])).toEqual([
      ['plane', 'dark'],
      ['clearance', 'clear'],
    ]);
    expect(board.outline.holes.filter((hole) => hole.plated)).toHaveLength(5);
  });

  it('leads a line from the coax to a single etched patch', () => {
    const assembly = assemblyOf({
      ...etchedArray,
      lattice: { rows: 1, columns: 1, orientation: 'vertical' },
      harness: { kind: 'microstrip', width: '2.4 mm', length: '15 mm' },
    });
    // Fed edge at -8.825; 15 mm below it sits the coax.
    expect(assembly.coaxPoint).toEqual({ x: 0, y: -23.825 });
  });
});

/** Length from the coax to each element, walking the splits. */
function wayLengths(assembly: Assembly): number[] {
  const key = (level: number, at: { x: number; y: number }) => `${level} ${at.x.toFixed(3)} ${at.y.toFixed(3)}`;
  const splits = new Map(assembly.harness.map((split) => [key(split.level, split.at), split]));
  const walk = (split: HarnessSplit): number[] =>
    split.arms.flatMap((arm) => {
      const length = arm.reduce((sum, run) => sum + run.lengthMm, 0);
      const end = arm.at(-1)?.to;
      const next = end && splits.get(key(split.level + 1, end));
      return next ? walk(next).map((rest) => rest + length) : [length];
    });
  const [root] = assembly.harness;
  return root ? walk(root) : [];
}
