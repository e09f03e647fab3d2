import type { DesignFile, Finding } from '@sheetwave/design';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assemble } from '../assemble.ts';
import { designOf, etchedArray, rodArray, stripArray } from '../testing/designs.ts';
import { detuning } from './field-findings.ts';
import { stackUpFindings } from './stack-up.ts';

function stackUp(file: DesignFile): Finding[] {
  const { assembly, findings } = assemble(designOf(file));
  if (!assembly) throw new Error(JSON.stringify(findings));
  return stackUpFindings(assembly);
}
const of = (findings: readonly Finding[], code: string): Finding | undefined =>
  findings.find((one) => one.code === code);

/** The rod array with other spacers under its two layers, and with other hardware. */
function withSpacers(spacers: readonly [string, string], more: Partial<DesignFile> = {}): DesignFile {
  const layer = rodArray.layer.map((one, index) => ({ ...one, spacer: spacers[index] ?? '' }));
  return { ...rodArray, layer, ...more };
}
const large = { ...rodArray.reflector, size: { width: '180 mm', height: '240 mm' } } as const;

type OwnSpacer = NonNullable<NonNullable<DesignFile['stock']>['spacer']>[string];
const roundSpacer = (across: string): OwnSpacer => ({
  material: 'brass',
  thread: 'M3',
  ends: ['male', 'female'],
  length: '5 mm',
  across,
  section: 'round',
});

describe('two ends in one bore', () => {
  it('are found with their sum, and with what to trim off which', () => {
    // Female-female 8 mm: the screw of 8 mm through 1 mm of brass goes 7 mm in, the stud of 6 mm through 0.5 mm goes 5.5 mm in.
    // 12.5 in 8 is 4.5 too much. One thread (0.5) stays free: 7.5 of room, 3.75 each; trim 3.25 and 1.75, cut to tenths: 3.3 and 1.8.
    const file = withSpacers(['m3-ff-8-brass', 'm3-mm-6-brass'], { hardware: { screw: 'm3-pan-8-brass' } });
    const found = of(stackUp(file), 'studs-meet-in-spacer');
    expect(found).toMatchObject({ severity: 'warning', parts: ['m3-ff-8-brass', 'm3-pan-8-brass', 'm3-mm-6-brass'] });
    expect(found?.allowed).toContain('4.5 mm too much');
    expect(found?.remedy).toContain('use a screw at least 3.3 mm shorter than m3-pan-8-brass');
    expect(found?.remedy).toContain('trim 1.8 mm off the stud of m3-mm-6-brass');
    expect(found?.remedy).toContain('leaves 3.75 mm');
    // Middle of the spacer.
    expect(found?.at).toEqual({ x: -22, y: -20, z: 4 });
  });

  it('trim the longer one alone when the shorter is below half', () => {
    // The screw of 4 mm goes 3 mm in, the stud 5.5: 8.5 in 8. Room 7.5: the stud keeps 4.5, so 1.0 off it.
    const file = withSpacers(['m3-ff-8-brass', 'm3-mm-6-brass'], { hardware: { screw: 'm3-pan-4-brass' } });
    const found = of(stackUp(file), 'studs-meet-in-spacer');
    expect(found?.remedy).toBe(
      'trim 1 mm off the stud of m3-mm-6-brass, which leaves 3 mm of thread at the shorter end',
    );
  });

  it('are an error where even trimmed ends hold by less than half a diameter', () => {
    // A spacer of 3 mm: room 2.5, 1.25 each, below 1.5.
    const file: DesignFile = {
      ...withSpacers(['short', 'm3-mm-6-brass'], { hardware: { screw: 'm3-pan-4-brass' } }),
      harness: { kind: 'none' },
      lattice: { rows: 1, columns: 1 },
      feed: { from_edge: '4 mm' },
      stock: {
        spacer: {
          short: { material: 'brass', thread: 'M3', ends: ['female', 'female'], length: '3 mm', across: '5.5 mm' },
        },
      },
    };
    expect(of(stackUp(file), 'studs-meet-in-spacer')).toMatchObject({ severity: 'error' });
  });

  it('are right when they fit: nothing is said', () => {
    // 12 mm long: 5 and 5.5 leave 1.5.
    const file = withSpacers(['m3-ff-12-brass', 'm3-mf-6-brass'], {
      hardware: { screw: 'm3-pan-6-brass' },
      reflector: large,
    });
    const codes = stackUp(file).map(({ code }) => code);
    expect(codes).not.toContain('studs-meet-in-spacer');
    expect(codes).not.toContain('stud-bottoms');
  });

  it('never overlap after the trims that are given, whatever their lengths', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(5, 6, 8, 10, 12),
        fc.constantFrom(4, 5, 6, 8),
        fc.integer({ min: 2, max: 10 }),
        (body, screw, stud) => {
          const file: DesignFile = {
            ...withSpacers([`m3-ff-${body}-brass`, 'mine'], { hardware: { screw: `m3-pan-${screw}-brass` } }),
            harness: { kind: 'none' },
            lattice: { rows: 1, columns: 1 },
            feed: { from_edge: '4 mm' },
            stock: {
              spacer: {
                mine: {
                  material: 'brass',
                  thread: 'M3',
                  ends: ['male', 'male'],
                  length: '6 mm',
                  stud: `${stud} mm`,
                  across: '5.5 mm',
                },
              },
            },
          };
          const { assembly } = assemble(designOf(file));
          if (!assembly) return;
          const found = of(stackUpFindings(assembly), 'studs-meet-in-spacer');
          const [a, b] = [screw - 1, stud - 0.5];
          expect(found !== undefined).toBe(a + b > body);
          const off = [...(found?.remedy ?? '').matchAll(/([\d.]+) mm (?:off|shorter)/g)].reduce(
            (sum, [, one]) => sum + Number(one),
            0,
          );
          if (found) expect(a + b - off).toBeLessThanOrEqual(body - 0.5 + 1e-9);
          if (found) expect(a + b - off).toBeGreaterThan(body - 0.5 - 0.2);
        },
      ),
      { seed: 20260517, numRuns: 60 },
    );
  });
});

describe('one end in a thread', () => {
  it('bottoms when its stud is longer than the thread is deep', () => {
    // 6 - 0.5 = 5.5 into 5: with one thread free 4.5 remain, so 1.0 off.
    const found = of(stackUp(rodArray), 'stud-bottoms');
    expect(found).toMatchObject({
      severity: 'warning',
      path: 'layer[1].spacer',
      parts: ['m3-mf-5-brass', 'm3-mf-6-brass'],
    });
    expect(found?.remedy).toContain('trim 1 mm off the stud of m3-mf-6-brass, which leaves 4.5 mm');
  });

  it('holds too little in plastic, which wants two diameters', () => {
    // 5.5 mm in nylon; 2 x 3 = 6 (shop rule, memory).
    const found = of(stackUp(withSpacers(['m3-mf-6-nylon', 'm3-mf-8-nylon'])), 'little-thread');
    expect(found?.allowed).toContain('leaves 5.5 mm');
    expect(found?.allowed).toContain('6 mm is the least in nylon');
  });

  it('wants one thread out of the nut', () => {
    // Stud 6, sheet 1, washer 0.5, nut 2.4: 2.1 stands out. With 3 mm of sheet 0.1 stands out, and a thread is 0.5.
    const thick: DesignFile = {
      ...rodArray,
      reflector: { sheet: 'thick', size: large.size },
      stock: { sheet: { thick: { material: 'brass', thickness: '3 mm' } } },
      hardware: { washer: 'm3-washer-brass' },
    };
    const found = of(stackUp(thick), 'nut-without-thread-out');
    expect(found?.allowed).toContain('stands 0.1 mm out of a nut 2.4 mm high; one thread of 0.5 mm should show');
    expect(of(stackUp(rodArray), 'nut-without-thread-out')).toBeUndefined();
  });
});

describe('parts in plan view', () => {
  it('touch where a rod runs into a spacer', () => {
    // The feed is 4 mm from the edge of a 20 mm patch, 6 mm from its centre; the hexagon's corners are at 3.175 mm.
    // A stem of -... is not possible, but a spacer 14 mm wide is: its circle of 7 mm reaches over the rod at 6 - 0.75 mm.
    const wide = roundSpacer('14 mm');
    const file: DesignFile = { ...withSpacers(['wide', 'm3-mf-6-brass']), stock: { spacer: { wide } } };
    const touching = stackUp(file).filter(({ code }) => code === 'harness-touches-post');
    // The probe stands 6 mm from the centre: 6 - 0.75 - 7 = -1.75.
    expect(touching.map(({ allowed }) => allowed).join()).toContain(
      'reaches 1.75 mm into the wide spacer and shorts it',
    );
    expect(touching[0]).toMatchObject({ severity: 'error' });
  });

  it('are near where less than half a millimetre is left', () => {
    // A round spacer of 9.7 mm: 6 - 0.75 - 4.85 = 0.4.
    const wide = roundSpacer('9.7 mm');
    const file: DesignFile = { ...withSpacers(['wide', 'm3-mf-6-brass']), stock: { spacer: { wide } } };
    expect(of(stackUp(file), 'harness-near-post')?.allowed).toContain('is 0.4 mm from the wide spacer');
    expect(of(stackUp(file), 'harness-touches-post')).toBeUndefined();
  });

  it('are too near a sheet where a rod lies low', () => {
    // Axis at 1.1, radius 0.75: 0.35 mm over the reflector.
    const file: DesignFile = {
      ...rodArray,
      harness: { kind: 'rod', topology: 'tree', height: '1.1 mm', rod: 'brass-rod-1.5', bend_radius: '1.5 mm' },
    };
    expect(of(stackUp(file), 'harness-near-sheet')?.allowed).toContain('0.35 mm from the reflector');
  });

  it('leave no room for a spanner beside the soldered coax', () => {
    // The coax of a single patch stands 10 - 1.5 = 8.5 mm from the nut; its land has a radius of (3.58 + 4)/2 = 3.79.
    // A socket for 5.5 mm needs 4.4: 8.5 - 3.79 - 4.4 = 0.31 is free; with from_edge 2.5 it is 0.69 short.
    const single = (from_edge: string): DesignFile => ({
      ...rodArray,
      harness: { kind: 'none' },
      lattice: { rows: 1, columns: 1 },
      feed: { from_edge },
    });
    expect(of(stackUp(single('1.5 mm')), 'no-room-for-tool')).toBeUndefined();
    const found = of(stackUp(single('2.5 mm')), 'no-room-for-tool');
    expect(found?.allowed).toContain('the soldered coax inside the circle of 8.8 mm');
    expect(found?.remedy).toContain('0.69 mm apart');
  });

  it('leave no room beside a folded edge', () => {
    // Mounting holes of 5.5 mm at 7 mm from edges of 1 mm sheet: 6 mm to the fold, and 1.2 x 5.5 = 6.6 is wanted.
    const reflector = {
      ...large,
      mounting_holes: { diameter: '5.5 mm', inset: '7 mm' },
      fold: { sides: ['left', 'right'] as ('left' | 'right')[], height: '12 mm' },
    };
    const found = of(stackUp({ ...rodArray, reflector }), 'no-room-for-tool');
    expect(found?.allowed).toContain('the folded edge on the left');
    expect(found?.remedy).toContain('0.6 mm apart');
  });
});

describe('a hole and a line', () => {
  const holed = (mounting: { diameter: string; inset: string }): DesignFile => ({
    ...etchedArray,
    reflector: { board: 'ptfe-glass-0.787-35', size: { width: '100 mm', height: '105 mm' }, mounting_holes: mounting },
  });

  it('is an error where the hole cuts etched copper', () => {
    const clear = holed({ diameter: '3.2 mm', inset: '4 mm' });
    expect(of(stackUp(clear), 'hole-cuts-line')).toBeUndefined();
    // The bar of the first level lies at x = 0 or y near the middle; holes 50 mm in from the sides sit beside the centre line.
    const cutting = holed({ diameter: '3.2 mm', inset: '49.5 mm' });
    const found = of(stackUp(cutting), 'hole-cuts-line');
    expect(found).toMatchObject({ severity: 'error' });
    expect(found?.value).toContain('a mounting hole of 3.2 mm');
  });
});

describe('a spacer in the field', () => {
  it('of metal in the middle is not seen', () => {
    expect(of(stackUp(rodArray), 'metal-off-centre')).toBeUndefined();
    expect(of(stackUp(rodArray), 'spacer-lowers-frequency')).toBeUndefined();
  });

  it('of nylon at the edge lowers the frequency by the perturbation formula', () => {
    // A thin post at the edge: -(er - 1) A / (L W), sin^2 = 1. Radius 0.1 mm: A = 0.0314159 mm2 over 40 x 50 mm, er 3: -3.1416e-5.
    const thin = detuning({ lengthMm: 40, widthMm: 50 }, { permittivity: 3, radiusMm: 0.1, offsetMm: 19.9 });
    expect(thin / -3.1416e-5).toBeCloseTo(1, 2);
    // In the middle a post of radius a sees the mean of sin^2, about (pi a / 2 L)^2: for a = 4, L = 40 that is 0.0247.
    const wide = detuning({ lengthMm: 40, widthMm: 50 }, { permittivity: 3, radiusMm: 4, offsetMm: 0 });
    expect(wide).toBeCloseTo(-2 * ((Math.PI * 16) / 2000) * 0.0247, 4);
  });

  it('says by how many megahertz a wide printed one does', () => {
    const layer = rodArray.layer.map((one) => ({ ...one, spacer: { printed: '5 mm', outer: '12 mm' } }));
    const file: DesignFile = {
      ...rodArray,
      layer,
      harness: { kind: 'none' },
      lattice: { rows: 1, columns: 1 },
      feed: { from_edge: '3 mm' },
      hardware: {},
    };
    const found = of(stackUp(file), 'spacer-lowers-frequency');
    // er 2.8, a = 6, L = 20, W = 26: 1.8 x 113.1/520 x mean sin^2. Over a disc the mean is (1 - 2 J1(u)/u)/2 with u = 2 pi a/L =
    // 1.885, J1 = 0.5815 (Bessel table, computed): 0.1915. That is 7.5 %, 435 MHz of 5.8 GHz.
    expect(found?.allowed).toMatch(/about 7\.5 %/);
    expect(found?.allowed).toMatch(/\(43\d MHz\)/);
  });
});

describe('a pole behind the reflector', () => {
  const clamped = (clamp: object, more: object = {}): DesignFile => ({
    ...stripArray,
    lattice: { rows: 2, columns: 1, row_pitch: '44 mm' },
    reflector: { ...large, clamp: { pole: '40 mm', ...clamp }, ...more },
  });

  it('presses on the nuts of the column in front of it', () => {
    // Nut 2.4 and 2.6 of stud (6 - 1 - 2.4) stand 5 mm behind; the column stands on the axis of the pole.
    const found = of(stackUp(clamped({})), 'pole-on-nuts');
    expect(found).toMatchObject({ severity: 'error' });
    expect(found?.allowed).toContain('needs 5 mm more');
    expect(found?.remedy).toContain('standoff = "5 mm"');
    expect(of(stackUp(clamped({ standoff: '5 mm' })), 'pole-on-nuts')).toBeUndefined();
  });

  it('runs through an edge that is folded back at the top', () => {
    // 12 mm over all in 1 mm sheet: 11 mm behind the back.
    const fold = { fold: { sides: ['top'], height: '12 mm' } };
    expect(of(stackUp(clamped({ standoff: '10 mm' }, fold)), 'pole-meets-fold')?.allowed).toContain('11 mm back');
    expect(of(stackUp(clamped({ standoff: '11 mm' }, fold)), 'pole-meets-fold')).toBeUndefined();
  });
});

describe('findings', () => {
  it('carry a place and parts that the assembly has', () => {
    const { assembly } = assemble(designOf(rodArray));
    if (!assembly) throw new Error('the array assembles');
    const ids = new Set(assembly.parts.map(({ id }) => id));
    for (const finding of stackUpFindings(assembly)) {
      expect(finding.at).toBeDefined();
      for (const part of finding.parts ?? []) expect(ids).toContain(part);
    }
  });
});
