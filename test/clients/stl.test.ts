import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { emitStl } from '@sheetwave/emit-stl';
import type { EmittedFile } from '@sheetwave/geometry';
import { afterAll, describe, expect, test } from 'vitest';
import { jigDesigns, rodArray } from '../main-job/jig-designs.ts';
import { badEdges, extent, facetArea, meshVolume, readMesh } from '../main-job/stl-mesh.ts';
import { describeWithClients, runClient } from './client.ts';

// Every printable file of every example, of stacks that no example has, and of an array that is larger than the bed.

interface Printable {
  readonly title: string;
  readonly design: ReturnType<typeof jigDesigns>[number]['design'];
  readonly file: EmittedFile;
}

const made = [...jigDesigns(), rodArray(8)].map(({ name, design, assembly }) => ({
  name,
  design,
  ...emitStl(assembly),
}));
const printed = (kind: EmittedFile['kind']): readonly Printable[] =>
  made.flatMap(({ name, design, files }) =>
    files
      .filter((file) => file.kind === kind)
      .map((file) => ({ title: `${name}: ${basename(file.path)}`, design, file })),
  );
const printables = printed('jig-stl');
/** The same parts, in the same order. */
const packages = printed('jig-3mf');

test('designs with a stack give spacers, half a jig and a gauge; what is cut by hand and bent has jigs for that too', () => {
  for (const { name, design, files } of made) {
    const stacked = design.layers.some((layer) => layer.spacer !== undefined);
    const names = files
      .filter(({ kind }) => kind === 'jig-stl')
      .map((file) => basename(file.path).replace(/-\d.*/, ''));
    const kinds = [...new Set(names)];
    expect(kinds.slice(0, 3), name).toEqual(stacked ? ['spacer', 'stack-jig-half.stl', 'height-gauge.stl'] : []);
    const byHand = stacked && design.reflector.process.id === 'hand';
    expect(
      kinds.some((kind) => kind.startsWith('drill-')),
      name,
    ).toBe(byHand);
    const rods = design.harness.kind === 'rod';
    expect(
      kinds.some((kind) => kind.startsWith('bend-gauge-')),
      name,
    ).toBe(rods);
    expect(
      kinds.some((kind) => kind.startsWith('saddle-')),
      name,
    ).toBe(rods || design.harness.kind === 'strip');
  }
});

test('every part comes in both formats', () => {
  const stem = ({ title }: Printable): string => title.replace(/\.(stl|3mf)$/, '');
  expect(packages.map(stem)).toEqual(printables.map(stem));
  expect(packages.length).toBeGreaterThan(40);
});

test('the same assembly gives the same bytes', () => {
  const [first] = jigDesigns();
  if (first === undefined) throw new Error('no design');
  expect(emitStl(first.assembly)).toEqual(emitStl(first.assembly));
});

describe.each(printables)('$title, by a reader of our own', ({ file }) => {
  const mesh = readMesh(file.bytes);

  test('states mm in a header that does not pass for the text form', () => {
    expect(mesh.header).toMatch(/unit: mm/);
    expect(mesh.header).not.toMatch(/^\s*solid/i);
  });

  test('is closed: every edge belongs to exactly two facets that run it in opposite directions', () => {
    expect(badEdges(mesh.facets)).toBe(0);
    expect(Math.min(...mesh.facets.map(facetArea))).toBeGreaterThan(0);
    expect(meshVolume(mesh.facets)).toBeGreaterThan(0);
  });

  test('has normals by the right-hand rule', () => {
    mesh.facets.forEach(([a, b, c], i) => {
      const [u, v] = [b.map((x, k) => x - (a[k] ?? 0)), c.map((x, k) => x - (a[k] ?? 0))];
      const [ux = 0, uy = 0, uz = 0] = u;
      const [vx = 0, vy = 0, vz = 0] = v;
      const across = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
      const along = across.reduce((sum, x, k) => sum + x * (mesh.normals[i]?.[k] ?? 0), 0);
      expect(along / Math.hypot(...across)).toBeCloseTo(1, 4);
    });
  });

  test('lies flat on z = 0, centred', () => {
    expect(extent(mesh.facets, 2)[0]).toBe(0);
    for (const axis of [0, 1] as const) {
      const [low, high] = extent(mesh.facets, axis);
      // On a grid of 1 µm.
      expect(Math.abs(low + high)).toBeLessThan(1.5e-3);
    }
  });
});

const spacers = printables.flatMap((printable) => {
  const height = /spacer-([\d.]+)mm/.exec(printable.file.path)?.[1];
  return height === undefined ? [] : [{ ...printable, height: Number(height) }];
});
test.each(spacers)(
  '$title is a tube of exactly its height, with the volume of the closed form',
  ({ file, design, height }) => {
    const mesh = readMesh(file.bytes);
    const [, top] = extent(mesh.facets, 2);
    expect(top).toBe(Math.fround(height));
    const gaps = design.layers.map(({ spacer }) =>
      spacer?.kind === 'printed' ? spacer.heightMm : spacer?.spacer.bodyMm,
    );
    expect(gaps).toContain(height);
    const radii = mesh.facets.flatMap((facet) => facet.filter(([, , z]) => z > 1).map(([x, y]) => Math.hypot(x, y)));
    const [outer, bore] = [2 * Math.max(...radii), 2 * Math.min(...radii)];
    // Bevelled on the bed by what first layers spread, but no more than a quarter of the wall on each side.
    const bevel = Math.min(design.print.elephantFootMm, (outer - bore * Math.cos(Math.PI / 64)) / 8, height / 4);
    const onBed = mesh.facets.flatMap((facet) => facet.filter(([, , z]) => z === 0).map(([x, y]) => Math.hypot(x, y)));
    expect(outer / 2 - Math.max(...onBed)).toBeCloseTo(bevel, 3);
    expect(Math.min(...onBed) - bore / 2).toBeCloseTo(bevel, 3);
    // π/4 (D² − d²) h, less two rings of triangular section and centroid a third of the bevel inside (Pappus), less what 64
    // straight sides lack: 1 − sin(2π/64) / (2π/64) = 0.16 % of each circle (computed).
    const rings = ((bevel * bevel) / 2) * Math.PI * (outer - (2 / 3) * bevel + bore + (2 / 3) * bevel);
    const round = (Math.PI / 4) * (outer ** 2 - bore ** 2) * height - rings;
    expect(meshVolume(mesh.facets) / round).toBeGreaterThan(1 - 0.0017);
    expect(meshVolume(mesh.facets) / round).toBeLessThan(1 - 0.0015);
    const outers = design.layers.flatMap(({ spacer }) => (spacer?.kind === 'printed' ? [spacer.outerMm] : []));
    if (file.part !== undefined) expect(outers.some((mm) => Math.abs(mm - outer) < 1e-3)).toBe(true);
    // ISO 273 medium clearance holes: 3.4 mm for M3, 2.9 mm for M2.5 (confirmed); the printed bore is larger by the allowance, never smaller.
    const flats = bore * Math.cos(Math.PI / 64);
    const clearance = { M3: 3.4, 'M2.5': 2.9 }[design.hardware.thread] ?? Number.NaN;
    expect(Math.abs(flats - clearance - design.print.holeAllowanceMm)).toBeLessThan(1e-3);
  },
);

/** The mesh of a part, read from its STL file. */
function meshOf({ title, file }: Printable) {
  const stl = file.kind === 'jig-stl' ? file : printables[packages.findIndex((each) => each.title === title)]?.file;
  if (stl === undefined) throw new Error(`no STL beside ${file.path}`);
  return readMesh(stl.bytes).facets;
}

const folder = mkdtempSync(join(tmpdir(), 'printable-'));
afterAll(() => rmSync(folder, { recursive: true }));

function saved({ file }: Printable): string {
  const path = join(folder, basename(file.path));
  writeFileSync(path, file.bytes);
  return path;
}

describeWithClients(['admesh'], 'admesh', () => {
  test.each(printables)('$title: nothing to repair', (printable) => {
    const { status, stdout } = runClient('admesh', [saved(printable)]);
    expect(status, stdout).toBe(0);
    expect(stdout).toMatch(/Total disconnected facets\s*:\s*0\s+0/);
    expect(stdout).toMatch(/Number of parts\s*:\s*1\b/);
    for (const repair of ['Degenerate facets', 'Edges fixed', 'Facets removed', 'Facets added', 'Facets reversed'])
      expect(stdout).toMatch(new RegExp(`${repair}\\s*:\\s*0\\b`));
    expect(stdout).toMatch(/Backwards edges\s*:\s*0\b/);
    expect(stdout).toMatch(/Normals fixed\s*:\s*0\b/);
    const volume = Number(/Volume\s*:\s*([\d.]+)/.exec(stdout)?.[1]);
    // It adds up in single precision.
    expect(Math.abs(volume / meshVolume(readMesh(printable.file.bytes).facets) - 1)).toBeLessThan(1e-4);
  });
});

describeWithClients(['prusa-slicer'], 'a slicer', () => {
  test.each([...printables, ...packages])('$title: manifold, one part, of the right height', (printable) => {
    const { status, stdout, stderr } = runClient('prusa-slicer', ['--info', saved(printable)], { timeoutMs: 120_000 });
    expect(`${stdout}${stderr}`).not.toMatch(/warn|error|repair/i);
    expect(status).toBe(0);
    expect(stdout).toMatch(/manifold = yes/);
    expect(stdout).toMatch(/number_of_parts =\s+1\b/);
    expect(stdout).not.toMatch(/open_edges/);
    const [, top] = extent(meshOf(printable), 2);
    expect(Number(/size_z = ([\d.]+)/.exec(stdout)?.[1])).toBeCloseTo(top, 4);
  });

  // One of a kind from each design, in either format by turns: slicing is slow.
  const sliced = printables.flatMap((each, i) => {
    if (/spacer/.test(each.file.path) && /spacer/.test(printables[i - 1]?.file.path ?? '')) return [];
    return i % 2 === 0 ? [each] : packages.slice(i, i + 1);
  });
  test.each(sliced)('$title: slices without supports, to its full height', (printable) => {
    const gcode = join(folder, 'part.gcode');
    const mesh = meshOf(printable);
    const [, top] = extent(mesh, 2);
    const [low, high] = extent(mesh, 0);
    // Fine for what is measured by its height; coarser for plates that would take minutes.
    const layer = high - low > 30 ? 0.2 : 0.05;
    const args = [
      ...[
        '--export-gcode',
        '--fill-density',
        '100%',
        '--fill-pattern',
        'rectilinear',
        '--skirts',
        '0',
        '--brim-width',
        '0',
      ],
      ...['--layer-height', `${layer}`, '--first-layer-height', `${layer}`, '--nozzle-diameter', '0.4'],
      ...['--filament-diameter', '1.75', '--bed-shape', '0x0,230x0,230x230,0x230', '-o', gcode],
    ];
    const { status, stdout, stderr } = runClient('prusa-slicer', [...args, saved(printable)], { timeoutMs: 120_000 });
    const said = `${stdout}\n${stderr}`;
    expect(status, said).toBe(0);
    expect(said).not.toMatch(/error|warning|empty layer|support/i);
    const text = readFileSync(gcode, 'utf8');
    const tops = [...text.matchAll(/^;Z:([\d.]+)/gm)].map((match) => Number(match[1]));
    expect(Math.abs(Math.max(...tops) - top)).toBeLessThanOrEqual(layer / 2 + 1e-6);
    expect(tops.length).toBe(Math.round(Math.max(...tops) / layer));
    // Filament of 1.75 mm: π/4 · 1.75² mm² of area.
    const filament = Number(/filament used \[mm\] = ([\d.]+)/.exec(text)?.[1]) * (Math.PI / 4) * 1.75 ** 2;
    expect(Math.abs(filament / meshVolume(mesh) - 1)).toBeLessThan(0.06);
  });
});

describeWithClients(['unzip', 'xmllint'], 'unzip and xmllint', () => {
  test.each(packages)(
    '$title: sound package, well-formed model, the mesh of the STL file with shared corners',
    (printable) => {
      const path = saved(printable);
      const tested = runClient('unzip', ['-tq', path]);
      expect(tested.status, tested.stdout).toBe(0);
      expect(tested.stdout).toMatch(/No errors detected/);
      const models = join(folder, 'model');
      rmSync(models, { recursive: true, force: true });
      expect(runClient('unzip', ['-qo', path, '-d', models]).status).toBe(0);
      for (const name of ['[Content_Types].xml', '_rels/.rels', '3D/3dmodel.model']) {
        const parsed = runClient('xmllint', ['--noout', '--nonet', join(models, name)]);
        expect(parsed.status, parsed.stderr).toBe(0);
      }
      // 3MF Core Specification: unit, one relationship of the kind, corners counted from 0, facets outward (memory).
      const model = readFileSync(join(models, '3D', '3dmodel.model'), 'utf8');
      expect(model).toMatch(/<model unit="millimeter"/);
      expect(readFileSync(join(models, '_rels', '.rels'), 'utf8').match(/2013\/01\/3dmodel"/g)).toHaveLength(1);
      const corners = [...model.matchAll(/<vertex x="(-?[\d.]+)" y="(-?[\d.]+)" z="(-?[\d.]+)"\/>/g)].map(
        ([, x, y, z]) => [Number(x), Number(y), Number(z)] as const,
      );
      const facets = [...model.matchAll(/<triangle v1="(\d+)" v2="(\d+)" v3="(\d+)"\/>/g)].map(([, a, b, c]) => {
        const [p, q, r] = [corners[Number(a)], corners[Number(b)], corners[Number(c)]];
        if (p === undefined || q === undefined || r === undefined) throw new Error('a facet without its corner');
        return [p, q, r] as const;
      });
      expect(new Set(corners.map((corner) => corner.join())).size).toBe(corners.length);
      expect(badEdges(facets)).toBe(0);
      const stl = meshOf(printable);
      expect(facets).toHaveLength(stl.length);
      expect(meshVolume(facets) / meshVolume(stl)).toBeCloseTo(1, 5);
      // Euler: corners − edges + facets is even for closed surfaces, 2 for each body less 2 for each hole through it.
      expect(Math.abs(corners.length - facets.length / 2) % 2).toBe(0);
    },
  );
});
