import type { Design, Finding } from '@sheetwave/design';
import type { Assembly, EmittedFile, Part } from '@sheetwave/geometry';
import { describe, expect, it } from 'vitest';
import { checkDesign, makePackBy, type Stages } from './make-pack.ts';
import { readManifest } from './manifest.ts';
import { sha256Hex } from './sha256.ts';

const finding = (severity: Finding['severity'], code = severity): Finding => ({
  code,
  severity,
  path: 'lattice.rows',
  value: '2',
  allowed: 'a pipe | and *stars*',
  remedy: 'see',
});

const process = { id: 'hand', label: 'hand saw', allowanceMm: 0.5 };
const patch = {
  form: 'plate',
  role: 'patch',
  id: 'patch-driven',
  name: 'driven patch',
  quantity: 4,
  sheet: { id: 'brass-0.8', label: 'brass sheet 0.8 mm', thicknessMm: 0.8 },
  process,
  outline: {
    outer: {
      kind: 'path',
      start: { x: -12, y: -13.65 },
      segments: [
        { kind: 'line', to: { x: 12, y: -13.65 } },
        { kind: 'line', to: { x: 12, y: 13.65 } },
        { kind: 'line', to: { x: -12, y: 13.65 } },
        { kind: 'line', to: { x: -12, y: -13.65 } },
      ],
    },
    cutouts: [],
    holes: [
      { purpose: 'fixing', centre: { x: 0, y: 0 }, diameterMm: 3.4, plated: false },
      { purpose: 'feed', centre: { x: 0, y: 5 }, diameterMm: 1.3, plated: false },
      { purpose: 'fixing', centre: { x: 0, y: 8 }, diameterMm: 3.4, plated: false },
    ],
  },
  marks: [],
} as unknown as Part;
const spacer = {
  form: 'printed-spacer',
  id: 'spacer',
  name: 'printed spacer',
  quantity: 4,
  heightMm: 6,
  outerMm: 8,
  boreMm: 3.4,
} as Part;

const rod = {
  form: 'rod',
  id: 'rod',
  name: 'rod',
  quantity: 1,
  rod: {
    kind: 'rod',
    id: 'r',
    label: 'brass rod',
    diameterMm: 1.5,
    lengthsMm: [300],
    material: { name: 'brass', densityKgM3: 8500, conductivitySm: 15e6 },
  },
  developedLengthMm: 30,
  bendRadiusMm: 1.5,
  bends: [{ atMm: 12.5, angleDeg: 90, twistDeg: 0 }],
} as unknown as Part;

const design = {
  reflector: {},
  coax: {},
  name: 'Heron | Lock *',
  revision: 'B',
  notes: '=cmd()\n# not a heading',
  date: undefined,
  band: { lowHz: 5.725e9, highHz: 5.875e9 },
  layers: [{ shape: { kind: 'circle' } }],
  lattice: { rows: 2, columns: 2, orientation: 'vertical' },
} as unknown as Design;
const assembly = {
  design,
  parts: [patch, spacer, rod],
  reflectorRule: 'Two steps past the patches.',
} as unknown as Assembly;

const drawn = (path: string, part?: string): EmittedFile => ({
  path,
  kind: 'cut-dxf',
  part,
  bytes: new Uint8Array([1, 2]),
});

function stages(over: Partial<Stages> = {}): Stages {
  return {
    readDesign: () => ({ design, findings: [] }),
    assemble: () => ({ assembly, findings: [] }),
    validate: () => [],
    nest: () => ({ sheets: [], findings: [] }),
    emit: [() => ({ files: [drawn('cut/patch-driven.dxf', 'patch-driven')], notes: ['A note <b>.'] })],
    writePlan: () => [],
    measure: () => [{ part: 'antenna', what: 'element pitch', valueMm: 38.5, count: 2 }],
    estimate: () => ({
      lines: [
        {
          what: 'resonance',
          value: 5.8123,
          unit: 'GHz',
          error: 0.0581,
          digits: 2,
          origin: 'cavity',
          doubts: ['The gap is *wide*.'],
        },
      ],
      leavesOut: ['The screws.'],
      response: undefined,
      findings: [],
    }),
    massKg: (part) => (part.form === 'plate' ? 0.0044556 : 0.0003),
    findingText: (one) => `${one.path}: ${one.allowed}`,
    ...over,
  };
}

const input = { designText: 'name = "x"\n', toolVersion: '0.1.0' };

function made(over: Partial<Stages> = {}) {
  const result = makePackBy(stages(over), input);
  if (!result.ok) throw new Error('refused');
  return new Map(result.files.map((file) => [file.path, file.bytes]));
}
const text = (path: string, over: Partial<Stages> = {}) => new TextDecoder().decode(made(over).get(path));

describe('making a pack', () => {
  it('holds the drawn files, the parts list, both summaries and the manifest', () => {
    expect([...made().keys()].sort()).toEqual([
      'cut/patch-driven.dxf',
      'pack.json',
      'parts.csv',
      'summary.json',
      'summary.md',
    ]);
  });

  it('has a manifest that names every other file with its true size and hash', () => {
    const files = made();
    const manifest = readManifest(files.get('pack.json') ?? new Uint8Array());
    expect(manifest?.files.map((file) => file.path)).toEqual(
      [...files.keys()].filter((path) => path !== 'pack.json').sort(),
    );
    for (const { path, bytes, sha256 } of manifest?.files ?? []) {
      const there = files.get(path) ?? new Uint8Array();
      expect([bytes, sha256]).toEqual([there.length, sha256Hex(there)]);
    }
    expect(manifest?.design.text).toBe(input.designText);
  });

  it('lists parts with what a builder needs to know', () => {
    const [head, first, second] = text('parts.csv').split('\r\n');
    expect(head).toBe('part,what,quantity,stock,label,size,process,mass each g,files,note');
    expect(first).toMatch(
      /^patch-driven,driven patch,4,brass-0\.8,brass sheet 0\.8 mm,24 x 27\.3 x 0\.8 mm,hand saw,4\.456,cut\/patch-driven\.dxf,/,
    );
    expect(second).toContain('"outside 8 mm, bore 3.4 mm, length 6 mm",printed,0.3,');
  });

  it('tells the builder sizes, holes, the estimate with its error and gaps, and the cautions', () => {
    const page = text('summary.md');
    for (const words of [
      '5.725 to 5.875 GHz',
      '| antenna | element pitch | 38.5 | 2 |',
      '| patch-driven | fixing | 3.4 |  | 2 | 8 |',
      '| resonance | 5.81 GHz | ± 0.06 GHz | 1, 2 |',
      '1. cavity\n2. The gap is \\*wide\\*.',
      '| rod | 1 | 12.5 | 90° | 0° | 1.5 |',
      '- The screws.',
      'Never transmit into a harness',
      'Clamp thin sheet between two boards',
      'follow your local code',
      '`cut/patch-driven.dxf`',
    ])
      expect(page).toContain(words);
  });

  it('lets no word of the design act as markup', () => {
    const page = text('summary.md', { validate: () => [finding('warning')] });
    expect(page).toContain('# Heron \\| Lock \\*, revision B');
    expect(page).toContain('=cmd() \\# not a heading');
    expect(page).toContain('a pipe \\| and \\*stars\\*');
    expect(page).toContain('A note \\<b\\>.');
  });

  it('gives programs the same numbers', () => {
    const summary = JSON.parse(text('summary.json'));
    expect(summary.dimensions).toEqual([{ part: 'antenna', what: 'element pitch', valueMm: 38.5, count: 2 }]);
    expect(summary.estimate.lines[0].value).toBe(5.8123);
    expect(summary.parts[0].massG).toBe(4.456);
    expect(summary.parts[1].massG).toBe(0.3);
    expect(summary.holes[0]).toEqual({
      part: 'patch-driven',
      purpose: 'feed',
      diameterMm: 1.3,
      plated: false,
      each: 1,
      inAll: 4,
    });
  });

  it('speaks of etching only when something is etched', () => {
    expect(text('summary.md')).not.toMatch(/etchant/i);
    const board = {
      ...patch,
      form: 'board',
      laminate: { id: 'own', label: 'own board', thicknessMm: 1.5, copperMm: 0.035 },
      copper: { top: [], bottom: [] },
      process: { ...process, id: 'etch' },
    };
    const etched = { ...assembly, parts: [board] } as unknown as Assembly;
    const page = text('summary.md', {
      assemble: () => ({ assembly: etched, findings: [] }),
    });
    expect(page).toMatch(/etchant/i);
  });

  it('throws rather than write a number that is none', () => {
    expect(() => made({ measure: () => [{ part: 'x', what: 'x', valueMm: Number.NaN, count: 1 }] })).toThrow(/finite/);
  });

  it.each([
    [['../up.dxf'], /safe path/],
    [['cut/a.dxf', 'cut/A.dxf'], /share one path/],
    [['parts.csv'], /share one path/],
  ])('throws on emitters that give the paths %j', (paths, words) => {
    const emit = [() => ({ files: paths.map((path) => drawn(path)), notes: [] })];
    expect(() => made({ emit })).toThrow(words);
  });
});

describe('a design with an error', () => {
  const bad = finding('error');
  it.each<[string, Partial<Stages>]>([
    ['on reading', { readDesign: () => ({ design: undefined, findings: [bad] }) }],
    ['on assembling', { assemble: () => ({ assembly: undefined, findings: [bad] }) }],
    ['on checking', { validate: () => [bad] }],
    ['on estimating', { estimate: () => ({ lines: [], leavesOut: [], response: undefined, findings: [bad] }) }],
  ])('found %s makes nothing', (_when, over) => {
    const emit = [() => expect.unreachable('nothing may be drawn')];
    expect(makePackBy(stages({ ...over, emit }), input)).toEqual({ ok: false, findings: [bad] });
  });

  it('keeps the warnings that came before it', () => {
    const warning = finding('warning');
    const over = stages({ readDesign: () => ({ design, findings: [warning] }), validate: () => [bad] });
    expect(checkDesign({ designText: '' }, over)).toEqual({ ok: false, findings: [warning, bad] });
  });

  it('never goes without a reason', () => {
    expect(() =>
      checkDesign({ designText: '' }, stages({ readDesign: () => ({ design: undefined, findings: [] }) })),
    ).toThrow(/why/);
  });
});
