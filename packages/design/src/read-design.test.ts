import { describe, expect, it } from 'vitest';
import { etchedArray, etchedSingle, rodArray, singleSheet, stripStar, validFiles } from '../testing/files.ts';
import { mustRead } from '../testing/must-read.ts';
import { newDesignText } from './new-design.ts';
import { defineDesign, readDesign } from './read-design.ts';
import { renderFinding } from './render-finding.ts';
import type { DesignFile } from './schema/design-file.ts';

describe('a valid file', () => {
  it.each(Object.entries(validFiles))('%s reads without findings', (_, text) => {
    mustRead(text);
  });

  it('becomes the design it describes', () => {
    const design = mustRead(rodArray);
    expect(design).toMatchObject({
      name: 'Heron Lock 5.8',
      revision: 'B',
      date: '2026-05-17',
      band: { lowHz: 5.725e9, highHz: 5.875e9 },
      targets: { gainDbi: 14, vswr: 1.5, polarisation: 'vertical' },
      lattice: { rows: 2, columns: 4, rowPitchMm: 42, columnPitchMm: 42, orientation: 'vertical' },
      feed: { kind: 'probe', fromEdgeMm: 4, probeDiameterMm: 1, solderHoleMm: 1.3 },
      print: { holeAllowanceMm: 0.2, fitClearanceMm: 0.15, wallMm: 1.6 },
    });
    expect(design.notes).toContain('First build for the boathouse.');
    expect(design.reflector).toMatchObject({
      size: { widthMm: 150, heightMm: 152.4 },
      material: { kind: 'sheet', sheet: { thicknessMm: 1.5 } },
      edgeMarginMm: 20,
      cornerRadiusMm: 4,
      mounting: { diameterMm: 4.3, insetMm: 8 },
      process: { id: 'laser', kerfMm: 0.15, certainty: 'own' },
    });
    expect(design.layers).toMatchObject([
      {
        name: 'driven',
        shape: { kind: 'rectangle', lengthMm: 22, widthMm: 26 },
        build: { kind: 'sheet', sheet: { id: 'brass-0.5' } },
        spacer: { kind: 'stock', spacer: { bodyMm: 6, ends: ['male', 'female'] } },
        fixingHoleMm: 3.2,
        process: { id: 'hand' },
      },
      {
        name: 'parasitic-1',
        shape: { kind: 'circle', diameterMm: 24 },
        build: { kind: 'board', copperSide: 'inward', borderMm: 2 },
        spacer: { kind: 'printed', heightMm: 6, outerMm: 8 },
        fixingHoleMm: 3.2,
        process: { id: 'etch' },
      },
    ]);
    expect(design.harness).toMatchObject({
      kind: 'rod',
      topology: 'tree',
      heightMm: 3,
      bendRadiusMm: 4.5,
      levels: [
        { joins: 'columns', stemMm: 2, rod: { diameterMm: 2 }, section: undefined },
        { joins: 'rows', stemMm: 6, rod: { diameterMm: 3 } },
        { joins: 'columns', stemMm: 2, section: { at: 'inner', lengthMm: 13, tube: { outerMm: 3, boreMm: 2 } } },
      ],
    });
    expect(design.coax).toMatchObject({ throughHoleMm: 3.18, solderLandMm: 7.58, lengthMm: 300 });
    expect(design.hardware).toMatchObject({ thread: 'M3', fit: 'fine', screw: { id: 'm3-pan-6-brass' } });
  });

  it('takes the defaults', () => {
    expect(mustRead(singleSheet)).toMatchObject({
      revision: 'A',
      notes: '',
      date: undefined,
      targets: { gainDbi: undefined, vswr: 2, polarisation: undefined },
      reflector: { size: 'minimum', edgeMarginMm: undefined, cornerRadiusMm: 0, mounting: undefined },
      layers: [{ name: 'driven', fixingHoleMm: 3.4 }],
      // The pin of the coax is the probe: 0.92 mm, and 0.2 mm more for solder.
      feed: { kind: 'probe', probeDiameterMm: 0.92, solderHoleMm: 1.12 },
      lattice: { rows: 1, columns: 1, rowPitchMm: 0, columnPitchMm: 0, orientation: 'vertical' },
      harness: { kind: 'none' },
      coax: { connector: undefined, sleeveClearanceMm: 0.1, throughHoleMm: 3.18, solderLandMm: 7.58, lengthMm: 300 },
      hardware: { thread: 'M3', fit: 'medium', nut: { id: 'm3-nut-brass' }, washer: undefined },
      print: {
        process: 'filament',
        bedMm: { x: 220, y: 220 },
        holeAllowanceMm: 0.2,
        fitClearanceMm: 0.15,
        wallMm: 2,
        elephantFootMm: 0.3,
        springBackDeg: 3,
        bushingMm: undefined,
      },
    });
  });

  it('takes the longest brass screw that bottoms in no thread of a chain: 0.5 mm of sheet and 5 mm of thread take 5 mm', () => {
    const text = newDesignText()
      .replace(/^screw = .*$/m, '')
      .replace(/^spacer = .*$/gm, 'spacer = "m3-mf-5-brass"');
    const { hardware, layers } = mustRead(text);
    const last = layers.at(-1);
    const sheetMm = last?.build.kind === 'sheet' ? last.build.sheet.thicknessMm : Number.NaN;
    expect(hardware.screw.lengthMm - sheetMm).toBeLessThanOrEqual(5);
    expect(hardware.screw).toMatchObject({ id: 'm3-pan-5-brass' });
  });

  it('takes the shortest steel screw that reaches through plain spacers: 1 + 5 + 0.45 + 2.4 + 1 = 9.85 mm', () => {
    expect(mustRead(stripStar).hardware.screw.id).toBe('m3-pan-10-steel');
  });

  it('takes the outermost rod, bent up, as the probe of a rod harness', () => {
    const text = rodArray.replace('probe_diameter = "1 mm"\nsolder_hole = "1.3 mm"\n', '');
    expect(mustRead(text).feed).toMatchObject({ probeDiameterMm: 2, solderHoleMm: 2.2 });
  });

  it('reads own stock', () => {
    expect(mustRead(stripStar).layers[0]?.build).toMatchObject({
      sheet: {
        id: 'my-brass',
        thicknessMm: 0.45,
        certainty: 'own',
        sizesMm: [
          [100, 200],
          [304.8, 304.8],
        ],
      },
    });
  });

  it('reads etched designs', () => {
    expect(mustRead(etchedSingle)).toMatchObject({
      reflector: { process: { id: 'etch' } },
      layers: [{ build: { kind: 'on-reflector-board' }, spacer: undefined, fixingHoleMm: undefined }],
      harness: { kind: 'microstrip', levels: [], lead: { widthMm: 2.4, lengthMm: 20 } },
      coax: { lengthMm: 0 },
    });
    expect(mustRead(etchedArray).harness).toMatchObject({
      kind: 'microstrip',
      lead: undefined,
      levels: [{ joins: 'columns', widthMm: 1.2, stemMm: 10, section: { widthMm: 0.7 } }],
    });
  });

  it('is frozen all the way down', () => {
    const unfrozen = (value: unknown): boolean =>
      typeof value === 'object' && value !== null && (!Object.isFrozen(value) || Object.values(value).some(unfrozen));
    for (const text of Object.values(validFiles)) expect(unfrozen(mustRead(text))).toBe(false);
  });

  it('gives the same design from an object of the same shape', () => {
    const file: DesignFile = {
      format: 1,
      name: 'Orchard mast 2.4',
      band: { low: '2.4 GHz', high: '2.4835 GHz' },
      reflector: { sheet: 'brass-1.0' },
      layer: [{ shape: 'rectangle', length: '53 mm', width: '60 mm', sheet: 'brass-0.5', spacer: 'm3-mf-6-brass' }],
      feed: { from_edge: '14 mm' },
      coax: { stock: 'semi-rigid-141' },
    };
    expect(defineDesign(file)).toEqual({ design: mustRead(singleSheet), findings: [] });
  });
});

describe('what is wrong is said with its place', () => {
  it.each<[base: string, found: string, put: string, sentence: string]>([
    [singleSheet, '"53 mm"', '"0 mm"', 'a.toml:10:1: layer 1 length: 0 mm is not a length; give at least 0.5 mm'],
    [singleSheet, '"53 mm"', '53', 'a.toml:10:1: layer 1 length: 53 is not a length with its unit; write "53 mm"'],
    [
      singleSheet,
      '"53 mm"',
      '"53 m"',
      'a.toml:10:1: layer 1 length: 53 m is outside 0.5 mm to 2000 mm; give at most 2000 mm',
    ],
    [
      singleSheet,
      'length = "53 mm"\n',
      '',
      'a.toml:8:1: layer 1 length: needs a length with its unit; give one, such as "6 mm"',
    ],
    [
      singleSheet,
      '"brass-0.5"',
      '"bras-0.5"',
      'a.toml:12:1: layer 1 sheet: "bras-0.5" is not a sheet in stock; use "brass-0.5" or "brass-0.2" or "brass-0.3", or describe your own under [stock.sheet.…]',
    ],
    [
      singleSheet,
      'from_edge',
      'from_egde',
      'a.toml:15:1: feed.from_egde: is not a field of a design; did you mean from_edge?',
    ],
    [
      singleSheet,
      '[reflector]',
      '[refelctor]',
      'a.toml:6:1: refelctor: is not a field of a design; did you mean reflector?',
    ],
    [
      singleSheet,
      'shape = "rectangle"',
      'shape = "rectangel"',
      'a.toml:9:1: layer 1 shape: "rectangel" is not one of "rectangle", "circle", "ring", "triangle" or "outline"; did you mean "rectangle"?',
    ],
    [singleSheet, '[feed]', '[feed', 'a.toml:14:6: not a TOML document: illegal character in key; correct this line'],
    [
      singleSheet,
      '"2.4 GHz"',
      'nan',
      'a.toml:4:1: band.low: nan is not a frequency with its unit; write it as text, such as "6 GHz"',
    ],
    [
      singleSheet,
      '"2.4 GHz"',
      '"2.5 GHz"',
      'a.toml:5:1: band.high: 2.4835 GHz is not above the lower edge of the band; swap them, or correct one',
    ],
    [
      singleSheet,
      '"2.4 GHz"',
      '"24 Hz"',
      'a.toml:4:1: band.low: 24 Hz is outside 300 MHz to 30 GHz; give at least 300 MHz',
    ],
    [
      singleSheet,
      'format = 1',
      'format = 2',
      'a.toml:1:1: format: 2 is not a format this version reads; write format = 1',
    ],
    [singleSheet, 'format = 1', '', 'a.toml: format: needs a format version; write format = 1'],
    [
      singleSheet,
      'sheet = "brass-1.0"',
      '',
      'a.toml:6:1: reflector: has neither a sheet nor a board; give exactly one, such as sheet = "brass-1.0" or board = "ptfe-glass-0.787-35"',
    ],
    [
      singleSheet,
      'spacer = "m3-mf-6-brass"',
      '',
      'a.toml:8:1: layer 1: has no spacer; give spacer = "m3-mf-6-brass" or { printed = "6 mm", outer = "8 mm" }',
    ],
    [
      singleSheet,
      'm3-mf-6-brass',
      'm4-mf-6-brass',
      'a.toml:13:1: layer 1 spacer: "m4-mf-6-brass" has thread M4 and the hardware M3; use one for M3, or write thread = "M4" under [hardware]',
    ],
    [
      singleSheet,
      '"14 mm"',
      '"30 mm"',
      'a.toml:15:1: feed.from_edge: 30 mm is beyond the centre of the driven patch; give at most 26.5 mm',
    ],
    [
      singleSheet,
      '"14 mm"',
      '"0.4 mm"',
      'a.toml:15:1: feed.from_edge: 0.4 mm puts the solder hole over the edge of the driven patch; give more than 0.56 mm',
    ],
    [
      singleSheet,
      'from_edge = "14 mm"',
      'kind = "edge"',
      'a.toml:15:1: feed.kind: "edge" needs an etched line to the patch; write kind = "microstrip" under [harness], or kind = "probe" here',
    ],
    [
      rodArray,
      'rows = 2',
      'rows = 3',
      'a.toml:44:1: lattice: 3 x 4 cannot be joined by a tree; use 1, 2, 4, 8 ... rows and columns',
    ],
    [
      rodArray,
      '[[harness.level]]\n[[',
      '[[',
      'a.toml:55:1: harness.level: 2 is not the number of levels of this harness, which is 3; write 3 [[harness.level]] tables, or none to take the defaults',
    ],
    [
      rodArray,
      'row_pitch = "42 mm"\n',
      '',
      'a.toml:44:1: lattice.row_pitch: needed for 2 rows; give row_pitch = "42 mm", the distance between their centres',
    ],
    [
      rodArray,
      'brass-tube-3x0.5',
      'brass-tube-2x0.5',
      'a.toml:60:45: harness.level 3 section.tube: "brass-tube-2x0.5" has a bore of 1 mm and cannot slide over a 2 mm rod; use a tube with a bore of at least 2 mm',
    ],
    [
      rodArray,
      'fixing_hole = "3.2 mm"',
      'fixing_hole = "none"',
      'a.toml:38:1: layer 2 fixing_hole: "none" leaves nothing to fasten this layer to its spacer with; leave it out to take the clearance hole, or give a diameter',
    ],
    [
      rodArray,
      'outer = "8 mm"',
      'outer = "4 mm"',
      'a.toml:37:30: layer 2 spacer.outer: 4 mm leaves a wall of less than 0.8 mm around an M3 screw; give at least 5 mm',
    ],
    [
      rodArray,
      'shape = "circle"',
      'name = "Driven"\nshape = "circle"',
      'a.toml:32:1: layer 2 name: "Driven" is the name of another layer; give each layer its own name',
    ],
    [
      etchedSingle,
      'board = "ptfe-glass-0.787-35"',
      'sheet = "brass-1.0"',
      'a.toml:17:1: harness.kind: "microstrip" needs a board to be etched on; give reflector.board in place of reflector.sheet, or use a rod or strip harness',
    ],
    [
      etchedSingle,
      'kind = "inset"\ndepth = "5 mm"\ngap = "1 mm"',
      'from_edge = "4 mm"',
      'a.toml:12:1: feed.kind: "probe" does not meet an etched line; write kind = "inset" or "edge" under [feed]',
    ],
    [
      etchedSingle,
      'depth = "5 mm"',
      'depth = "9 mm"',
      'a.toml:14:1: feed.depth: 9 mm reaches the centre of the driven patch; give less than 8.3 mm',
    ],
    [
      etchedSingle,
      'length = "20 mm"\n',
      '',
      'a.toml:16:1: harness.length: needed for the line from the coax to the patch; give length = "20 mm"',
    ],
  ])('case %#', (base, found, put, sentence) => {
    expect(base).toContain(found);
    const { design, findings } = readDesign(base.replace(found, put));
    expect(design).toBeUndefined();
    expect(findings.map((finding) => renderFinding(finding, { file: 'a.toml' }))).toContain(sentence);
  });

  it('shows every mistake of the file at once', () => {
    const text = singleSheet.replace('"53 mm"', '53').replace('"60 mm"', '"60"').replace('"14 mm"', '"x"');
    expect(readDesign(text).findings.map((finding) => finding.path)).toEqual([
      'layer[0].length',
      'layer[0].width',
      'feed.from_edge',
    ]);
  });

  it('refuses more than 1 MB', () => {
    expect(readDesign(`${singleSheet}#${'x'.repeat(1_000_000)}`).findings).toMatchObject([{ code: 'too-large' }]);
  });
});

describe('what can be built but will disappoint is a warning', () => {
  it('for a target across the orientation', () => {
    const { design, findings } = readDesign(
      rodArray.replace('polarisation = "vertical"', 'polarisation = "horizontal"'),
    );
    expect(design).toBeDefined();
    expect(findings).toMatchObject([
      { severity: 'warning', code: 'polarisation-differs', path: 'targets.polarisation' },
    ]);
  });

  it('for glass-epoxy under a patch', () => {
    const { design, findings } = readDesign(etchedSingle.replace('ptfe-glass-0.787-35', 'fr4-1.6-35'));
    expect(design).toBeDefined();
    expect(findings).toMatchObject([{ severity: 'warning', code: 'lossy-board', path: 'reflector.board', line: 7 }]);
  });
});

describe('names', () => {
  it.each([
    '',
    'a/b',
    'a\\\\b',
    '..',
    '.',
    'CON',
    'con.txt',
    'lpt1',
    ' x',
    'x.',
    'a\\u0007b',
    'a\\u202eb',
    'x'.repeat(81),
  ])('refuses the design name %j', (name) => {
    const { findings } = readDesign(singleSheet.replace('"Orchard mast 2.4"', `"${name}"`));
    expect(findings.map((finding) => finding.path)).toEqual(['name']);
  });

  it.each(['', 'a b', 'é', 'nul', 'x'.repeat(41)])('refuses the layer name %j', (name) => {
    const { findings } = readDesign(singleSheet.replace('[[layer]]', `[[layer]]\nname = "${name}"`));
    expect(findings.map((finding) => finding.path)).toEqual(['layer[0].name']);
  });
});

it('offers only words that can be written, where a word may also be left out', () => {
  const { findings } = readDesign(singleSheet.replace('[feed]', '[feed]\nkind = ["probe"]'));
  expect(findings).toMatchObject([{ path: 'feed.kind', allowed: 'one of "probe", "inset" or "edge"' }]);
});
