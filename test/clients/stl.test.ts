import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { emitStl } from '@sheetwave/emit-stl';
import type { EmittedFile } from '@sheetwave/geometry';
import { afterAll, describe, expect, test } from 'vitest';
import { jigDesigns } from '../main-job/jig-designs.ts';
import { badEdges, extent, facetArea, meshVolume, readMesh } from '../main-job/stl-mesh.ts';
import { describeWithClients, runClient } from './client.ts';

// Every printable file of every example, and of stacks that no example has.

interface Printable {
  readonly title: string;
  readonly design: ReturnType<typeof jigDesigns>[number]['design'];
  readonly file: EmittedFile;
}

const made = jigDesigns().map(({ name, design, assembly }) => ({ name, design, ...emitStl(assembly) }));
const printables: readonly Printable[] = made.flatMap(({ name, design, files }) =>
  files.map((file) => ({ title: `${name}: ${basename(file.path)}`, design, file })),
);

test('designs with a stack give spacers, half a jig and a gauge, and nothing is left out', () => {
  for (const { name, design, files, notes } of made) {
    const stacked = design.layers.some((layer) => layer.spacer !== undefined);
    const names = files.map((file) => basename(file.path).replace(/-\d.*/, ''));
    expect([...new Set(names)], name).toEqual(stacked ? ['spacer', 'stack-jig-half.stl', 'height-gauge.stl'] : []);
    expect(notes, name).toEqual([]);
  }
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
      expect(Math.abs(low + high)).toBeLessThan(1e-3);
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
    const radii = mesh.facets.flatMap((facet) => facet.map(([x, y]) => Math.hypot(x, y)));
    const [outer, bore] = [2 * Math.max(...radii), 2 * Math.min(...radii)];
    // π/4 (D² − d²) h, less what 64 straight sides lack: 1 − sin(2π/64) / (2π/64) = 0.16 % of each circle (computed).
    const round = (Math.PI / 4) * (outer ** 2 - bore ** 2) * height;
    expect(meshVolume(mesh.facets) / round).toBeGreaterThan(1 - 0.0017);
    expect(meshVolume(mesh.facets) / round).toBeLessThan(1 - 0.0015);
    const printed = design.layers.flatMap(({ spacer }) => (spacer?.kind === 'printed' ? [spacer.outerMm] : []));
    if (file.part !== undefined) expect(printed.some((mm) => Math.abs(mm - outer) < 1e-3)).toBe(true);
    // ISO 273 medium clearance hole of M3 is 3.4 mm (memory); the printed bore is larger by the allowance, never smaller.
    const flats = bore * Math.cos(Math.PI / 64);
    expect(Math.abs(flats - 3.4 - design.print.holeAllowanceMm)).toBeLessThan(1e-3);
  },
);

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
  test.each(printables)('$title: manifold, one part, of the right height', (printable) => {
    const { status, stdout } = runClient('prusa-slicer', ['--info', saved(printable)], { timeoutMs: 120_000 });
    expect(status).toBe(0);
    expect(stdout).toMatch(/manifold = yes/);
    expect(stdout).toMatch(/number_of_parts =\s+1\b/);
    expect(stdout).not.toMatch(/open_edges/);
    const [, top] = extent(readMesh(printable.file.bytes).facets, 2);
    expect(Number(/size_z = ([\d.]+)/.exec(stdout)?.[1])).toBeCloseTo(top, 4);
  });

  // One of a kind from each design: slicing is slow.
  const sliced = printables.filter(
    ({ file }, i) => !/spacer/.test(file.path) || !/spacer/.test(printables[i - 1]?.file.path ?? ''),
  );
  test.each(sliced)('$title: slices without supports, to its full height', (printable) => {
    const gcode = join(folder, 'part.gcode');
    const layer = 0.05;
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
      ...['--filament-diameter', '1.75', '--bed-shape', '0x0,200x0,200x200,0x200', '-o', gcode],
    ];
    const { status, stdout, stderr } = runClient('prusa-slicer', [...args, saved(printable)], { timeoutMs: 120_000 });
    const said = `${stdout}\n${stderr}`;
    expect(status, said).toBe(0);
    expect(said).not.toMatch(/error|warning|empty layer|support/i);
    const text = readFileSync(gcode, 'utf8');
    const tops = [...text.matchAll(/^;Z:([\d.]+)/gm)].map((match) => Number(match[1]));
    const mesh = readMesh(printable.file.bytes);
    const [, top] = extent(mesh.facets, 2);
    expect(Math.abs(Math.max(...tops) - top)).toBeLessThanOrEqual(layer / 2 + 1e-6);
    expect(tops.length).toBe(Math.round(Math.max(...tops) / layer));
    // Filament of 1.75 mm: π/4 · 1.75² mm² of area.
    const filament = Number(/filament used \[mm\] = ([\d.]+)/.exec(text)?.[1]) * (Math.PI / 4) * 1.75 ** 2;
    expect(Math.abs(filament / meshVolume(mesh.facets) - 1)).toBeLessThan(0.06);
  });
});
