import { readDesign, renderFinding } from '@sheetwave/design';
import { emitDxf } from '@sheetwave/emit-dxf';
import { emitGerber } from '@sheetwave/emit-gerber';
import { type Assembly, assemble, validate } from '@sheetwave/geometry';
import { describe, expect, test } from 'vitest';
import { describeWithClients } from './client.ts';
import { measureDxf } from './dxf-clients.ts';
import { readGerber } from './gerber-grammar.ts';
import { readWithPlotter } from './gerber-reader.ts';
import { drawWithGerbv } from './gerbv.ts';

// Every shape of patch, cut from sheet and etched, read back by programs that we did not write. Areas are summed by hand beside each.

const RECTANGLE = 'shape = "rectangle"\nlength = "22 mm"\nwidth = "26 mm"\n';

/** A kite of four lines with one arc side and a round opening, in millimetres: `$INSUNITS` 4. */
const WING = [
  ...[0, 'SECTION', 2, 'HEADER', 9, '$INSUNITS', 70, 4, 0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES'],
  ...[0, 'LWPOLYLINE', 90, 4, 70, 1, 10, 0, 20, 0, 10, 26, 20, 0, 42, 1, 10, 26, 20, 20, 10, 0, 20, 20],
  ...[0, 'CIRCLE', 10, 20, 20, 4, 40, 2, 0, 'ENDSEC', 0, 'EOF', ''],
].join('\n');
/** The same by hand: 26 x 20 mm, a half disc of 20 mm on its right side, less a 4 mm opening. */
const WING_AREA = 26 * 20 + 50 * Math.PI - 4 * Math.PI;

interface Sample {
  readonly name: string;
  readonly layer: string;
  readonly feed: string;
  /** Metal without holes, mm². */
  readonly area: number;
  /** A ring has no metal at its centre to be held by. */
  readonly sheet: boolean;
}

const corner = (radius: number): number => (1 - Math.PI / 4) * radius ** 2;

const SAMPLES: readonly Sample[] = [
  {
    name: 'round corners',
    layer: `${RECTANGLE}corner_radius = "3 mm"`,
    feed: '2 mm',
    area: 572 - 4 * corner(3),
    sheet: true,
  },
  {
    name: 'two cut corners',
    layer: `${RECTANGLE}cut_corners = { corners = "opposite", size = "3 mm", hand = "left-hand" }`,
    feed: '2 mm',
    area: 572 - 9,
    sheet: true,
  },
  {
    name: 'four cut corners',
    layer: `${RECTANGLE}cut_corners = { corners = "all", size = "3 mm" }`,
    feed: '2 mm',
    area: 572 - 18,
    sheet: true,
  },
  {
    name: 'U slot',
    layer: `${RECTANGLE}slot = { kind = "u", arm = "12 mm", base = "10 mm", width = "1.5 mm", offset = "2.5 mm", edge = "far", end_radius = "0.5 mm" }`,
    feed: '2 mm',
    area: 572 - 10 * 1.5 - 2 * 10.5 * 1.5 + 6 * corner(0.5),
    sheet: true,
  },
  {
    name: 'E slots',
    layer: `${RECTANGLE}slot = { kind = "e", length = "14 mm", spacing = "9 mm", width = "1.5 mm", end_radius = "0.5 mm" }`,
    feed: '2 mm',
    area: 572 - 2 * 14 * 1.5 + 4 * corner(0.5),
    sheet: true,
  },
  {
    name: 'ring',
    layer: 'shape = "ring"\nouter_diameter = "24 mm"\ninner_diameter = "8 mm"',
    feed: '4 mm',
    area: Math.PI * (144 - 16),
    sheet: false,
  },
  {
    name: 'triangle',
    layer: 'shape = "triangle"\nside = "40 mm"',
    feed: '2 mm',
    area: 400 * Math.sqrt(3),
    sheet: true,
  },
  { name: 'drawn outline', layer: 'shape = "outline"\nfile = "wing.dxf"', feed: '2 mm', area: WING_AREA, sheet: true },
];

function assembled(sample: Sample, carrier: string): Assembly {
  const text = `format = 1
name = "Shapes"
[band]
low = "5.7 GHz"
high = "5.9 GHz"
[reflector]
sheet = "brass-1.0"
[[layer]]
${sample.layer}
${carrier}
spacer = "m3-mf-5-brass"
[feed]
from_edge = "${sample.feed}"
[coax]
stock = "semi-rigid-141"
[process.laser]
compensate_kerf = false
[process.etch]
undercut = "0 mm"
`;
  const { design, findings } = readDesign(text, { files: { 'wing.dxf': WING } });
  const made = design && assemble(design);
  const errors = [...findings, ...(made?.findings ?? []), ...(made?.assembly ? validate(made.assembly) : [])];
  if (made?.assembly && errors.every(({ severity }) => severity !== 'error')) return made.assembly;
  throw new Error(errors.map((finding) => renderFinding(finding)).join('\n'));
}

const cutFrom = (sample: Sample) => assembled(sample, 'sheet = "brass-0.5"\nprocess = "laser"');
const etchedOn = (sample: Sample) => assembled(sample, 'board = "ptfe-glass-0.787-35"');

function bytesOf(files: readonly { readonly path: string; readonly bytes: Uint8Array }[], end: string): Uint8Array {
  const file = files.find(({ path }) => path.endsWith(end));
  if (file === undefined) throw new Error(`no file ${end}`);
  return file.bytes;
}

describeWithClients(['ezdxf'], 'shapes cut from sheet, read by ezdxf', () => {
  test.each(SAMPLES.filter(({ sheet }) => sheet))('$name: closed, and with the area by hand', (sample) => {
    const { complaints, entities } = measureDxf(bytesOf(emitDxf(cutFrom(sample)), 'patch-driven.dxf'));
    expect(complaints).toEqual([]);
    const cut = entities.filter(({ layer }) => /^CUT_/.test(layer));
    expect(cut.every(({ closed }) => closed)).toBe(true);
    const [outside] = cut.filter(({ layer }) => layer === 'CUT_OUTER');
    // Drilled and cut holes alike: the fixing hole of 3.4 mm is one of the round inside cuts.
    const inside = cut.filter(({ layer, diameter }) => layer === 'CUT_INNER' && !isHole(diameter));
    const metal = (outside?.area ?? 0) - inside.reduce((sum, { area }) => sum + (area ?? 0), 0);
    expect(Math.abs(metal / sample.area - 1)).toBeLessThan(1e-4);
  });
});

/** The fixing hole of M3 (ISO 273 medium: 3.4 mm) and the solder hole (0.92 mm pin and 0.2 mm). */
function isHole(diameter: number | undefined): boolean {
  return diameter !== undefined && [3.4, 1.12].some((hole) => Math.abs(hole - diameter) < 1e-6);
}

describe('shapes etched, by the strict grammar and by a plotter', () => {
  test.each(SAMPLES)('$name: dark less clear is the area by hand', async (sample) => {
    const bytes = bytesOf(emitGerber(etchedOn(sample)), 'top-copper.gbr');
    const { regions } = readGerber(bytes);
    const metal = regions.reduce((sum, { polarity, areaMm2 }) => sum + (polarity === 'dark' ? areaMm2 : -areaMm2), 0);
    expect(Math.abs(metal / sample.area - 1)).toBeLessThan(1e-5);
    const image = await readWithPlotter(bytes);
    expect(image.warnings).toEqual([]);
    expect(Math.abs(image.areaMm2 / sample.area - 1)).toBeLessThan(1e-4);
  });
});

describeWithClients(['gerbv', 'python-images'], 'shapes etched, drawn by gerbv', () => {
  test.each(SAMPLES)('$name', async (sample) => {
    const bytes = bytesOf(emitGerber(etchedOn(sample)), 'top-copper.gbr');
    const vector = await readWithPlotter(bytes);
    const raster = drawWithGerbv(bytes, vector.bounds);
    expect(raster.complaints).toEqual([]);
    const tolerance = 0.0002 * sample.area + (vector.perimeterMm * raster.pixelMm) / 2;
    expect(Math.abs(raster.areaMm2 - sample.area)).toBeLessThan(tolerance);
  });
});
