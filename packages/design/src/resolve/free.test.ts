import { describe, expect, it } from 'vitest';
import { etchedArray, rodArray, singleSheet } from '../../testing/files.ts';
import { readDesign } from '../read-design.ts';
import { renderFinding } from '../render-finding.ts';

const single = (free: string) => readDesign(`${singleSheet}[free]\n${free}\n`);
const said = (free: string) => single(free).findings.map((finding) => renderFinding(finding));

describe('[free]', () => {
  it('is empty when it is left out', () => {
    expect(readDesign(singleSheet).design?.free).toEqual([]);
  });

  it('mirrors the design, names layers by their name, and gives the place of each value', () => {
    const { design, findings } = single(`
      layer.driven.length = { from = "50 mm", to = "2.2 in", step = "0.1 mm" }
      feed.from_edge = { from = "5 mm", to = "20 mm" }`);
    expect(findings).toEqual([]);
    expect(design?.free).toEqual([
      { kind: 'length', path: 'layer[0].length', fromMm: 50, toMm: 55.88, stepMm: 0.1, valueMm: 53 },
      { kind: 'length', path: 'feed.from_edge', fromMm: 5, toMm: 20, stepMm: undefined, valueMm: 14 },
    ]);
  });

  // M3 spacers are sold in 5, 6, 8, 10, 12, 15 ... mm (trade pattern without a standard, memory).
  it('takes spacers of the same make out of stock, by a range of lengths', () => {
    const { design } = single('layer.driven.spacer = { from = "5 mm", to = "10 mm" }');
    expect(design?.free[0]).toEqual({
      kind: 'stock',
      path: 'layer[0].spacer',
      stock: 'spacer',
      value: 'm3-mf-6-brass',
      choices: [5, 6, 8, 10].map((mm) => ({ id: `m3-mf-${mm}-brass`, sizeMm: mm })),
    });
  });

  it('takes listed stock, from small to large and each once', () => {
    const { design } = single('layer.driven.spacer = ["m3-mf-8-brass", "m3-mf-6-nylon", "m3-mf-8-brass"]');
    expect(design?.free[0]).toMatchObject({
      choices: [
        { id: 'm3-mf-6-nylon', sizeMm: 6 },
        { id: 'm3-mf-8-brass', sizeMm: 8 },
      ],
    });
  });

  it('counts harness levels from 1, and frees printed spacers, rods, tubes and pitches', () => {
    const { design, findings } = readDesign(`${rodArray}
[free]
layer.parasitic-1.spacer = { from = "5 mm", to = "8 mm", step = "0.5 mm" }
lattice.column_pitch = { from = "38 mm", to = "46 mm" }
harness.rod = { from = "1.5 mm", to = "2.5 mm" }
harness.level.2.rod = ["brass-rod-3", "brass-rod-4"]
harness.level.3.section.length = { from = "10 mm", to = "15 mm" }
`);
    expect(findings.filter((finding) => finding.path.startsWith('free')).map((one) => renderFinding(one))).toEqual([]);
    expect(design?.free.map((one) => one.path)).toEqual([
      'layer[1].spacer.printed',
      'lattice.column_pitch',
      'harness.rod',
      'harness.level[1].rod',
      'harness.level[2].section.length',
    ]);
    expect(design?.free[2]).toMatchObject({
      choices: [1.5, 1.588, 2, 2.5].map((mm) => ({ id: `brass-rod-${mm}`, sizeMm: mm })),
    });
  });

  it.each<[string, RegExp]>([
    [
      'feed.from_edge = { from = "9 mm", to = "9 mm" }',
      /^line \d+, column \d+: free\.feed\.from_edge\.to: 9 mm is not above from, 9 mm, so that there is nothing to choose; /,
    ],
    [
      'feed.from_edge = { from = "9 mm", to = "10 mm", step = "2 mm" }',
      /step: 2 mm is more than the whole range, 1 mm/,
    ],
    ['feed.from_edge = { from = "9 mm", to = "10 mm", step = "0 mm" }', /step: 0 mm is not a length; give at least/],
    ['layer.drven.length = { from = "50 mm", to = "60 mm" }', /is not the name of a layer; .*did you mean driven\?/],
    [
      'layer.driven.lenght = { from = "50 mm", to = "60 mm" }',
      /lenght: is not a field of a design; did you mean length\?/,
    ],
    [
      'layer.driven.diameter = { from = "50 mm", to = "60 mm" }',
      /frees layer\[0\]\.diameter, which the design does not give/,
    ],
    ['lattice.row_pitch = { from = "50 mm", to = "60 mm" }', /frees lattice.row_pitch, which the design does not give/],
    ['layer.driven.spacer = { from = "6 mm", to = "7 mm" }', /leaves one item of stock to choose from/],
    ['layer.driven.spacer = ["m3-mf-6-brass", "m3-mf-7-brass"]', /"m3-mf-7-brass" is not a spacer in stock; use /],
    ['layer.driven.spacer = { from = "5 mm", to = "8 mm", step = "1 mm" }', /does not go with stock/],
    ['layer.driven.spacer = 6', /6 neither a list of spacers nor a range; write /],
    ['harness.level.0.stem = { from = "1 mm", to = "2 mm" }', /the number of a level; count from 1/],
  ])('refuses %s', (free, words) => {
    expect(said(free).join('\n')).toMatch(words);
    expect(single(free).design).toBeUndefined();
  });

  it('warns of a start outside its range, and keeps the design', () => {
    const { design, findings } = single('layer.driven.length = { from = "54 mm", to = "60 mm" }');
    expect(findings).toMatchObject([{ code: 'start-outside', severity: 'warning', value: '53 mm' }]);
    expect(design?.free).toHaveLength(1);
  });
});

describe('[tolerances]', () => {
  it('takes what the workshop holds', () => {
    const { design } = readDesign(`${etchedArray}[tolerances]\ncut = "50 um"\npermittivity = 1\n`);
    expect(design?.tolerances).toMatchObject({ cutMm: 0.05, permittivity: 0.01, drillMm: undefined });
  });

  it.each(['cut = "0 mm"', 'spacer = "-0.1 mm"', 'flatness = "0 mm"', 'permittivity = 0', 'sheet = 0.1'])(
    'refuses %s',
    (line) => {
      const { design, findings } = readDesign(`${singleSheet}[tolerances]\n${line}\n`);
      expect(design).toBeUndefined();
      expect(findings).toMatchObject([{ path: `tolerances.${line.split(' ')[0]}`, severity: 'error' }]);
      expect(findings.map((finding) => renderFinding(finding))[0]).toMatch(/; (give at least|write)/);
    },
  );
});
