import { readDesign, renderFinding } from '@sheetwave/design';
import { emitDxf } from '@sheetwave/emit-dxf';
import { emitSvg } from '@sheetwave/emit-svg';
import { type Assembly, assemble, validate } from '@sheetwave/geometry';
import { expect, test } from 'vitest';
import { describeWithClients } from './client.ts';
import { librecadStrokes, measureDxf } from './dxf-clients.ts';
import { boundsInInkscape, xmlComplaints } from './svg-clients.ts';

/** A reflector with everything that can be done to one: four folds, clamp, flange, drain and gland. */
const TEXT = `
format = 1
name = "Heron Lock folded"
band = { low = "5.15 GHz", high = "5.25 GHz" }
coax = { stock = "semi-rigid-141", connector = "sma-jack-panel-4" }
[reflector]
sheet = "brass-1.0"
size = { width = "130 mm", height = "190 mm" }
corner_radius = "4 mm"
mounting_holes = { diameter = "4.5 mm", inset = "10 mm" }
fold = { sides = "all", height = "10 mm", direction = "front" }
clamp = { pole = "30 mm", standoff = "45 mm" }
process = "laser"
[[layer]]
name = "driven"
shape = "rectangle"
length = "22 mm"
width = "28 mm"
sheet = "brass-0.5"
spacer = "m3-ff-6-brass"
[[layer]]
name = "parasitic"
shape = "circle"
diameter = "19 mm"
sheet = "brass-0.5"
spacer = "m3-mf-8-brass"
[feed]
from_edge = "4.5 mm"
[lattice]
rows = 2
row_pitch = "46 mm"
[harness]
kind = "rod"
height = "2.1 mm"
rod = "brass-rod-1.5"
bend_radius = "1.5 mm"
stem = "14 mm"
[box]
part_of = "reflector"
drain = { diameter = "4 mm" }
gland = { diameter = "12.5 mm" }
[hardware]
screw = "m3-pan-5-brass"
`;

function made(): Assembly {
  const reading = readDesign(TEXT);
  const result = reading.design && assemble(reading.design);
  if (result?.assembly) return result.assembly;
  throw new Error(
    [...reading.findings, ...(result?.findings ?? [])].map((finding) => renderFinding(finding)).join('\n'),
  );
}

const assembly = made();
const findings = validate(assembly);

// Worked by hand (shop-handbook formula, memory) with R = t = 1 mm and K = 0.4: BD = 4 - (pi/2) 1.4 = 1.800885, so the flat sheet
// is 130 + 2 (10 - 1.800885) = 146.39823 by 206.39823 mm; a bend line is 65 - 2 + 2.199115/2 = 64.099558 mm from the centre, and as
// long as the face less twice setback and relief (2 + 1): 184 and 124 mm.
const [FLAT_WIDTH, FLAT_HEIGHT] = [146.39823, 206.39823];

function reflectorDxf(): Uint8Array {
  const file = emitDxf(assembly).find(({ part }) => part === 'reflector');
  if (file === undefined) throw new Error('no cut file of the reflector');
  return file.bytes;
}

function drawing(path: string): Uint8Array {
  const file = emitSvg(assembly, { findings }).find((one) => one.path === path);
  if (file === undefined) throw new Error(`no ${path}`);
  return file.bytes;
}

describeWithClients(['ezdxf'], 'the cut file of a folded reflector in ezdxf', () => {
  test('has one bend line for each fold, as long as worked out by hand, and words only among the notes', () => {
    const { entities, complaints } = measureDxf(reflectorDxf());
    expect(complaints).toEqual([]);
    const bends = entities.filter(({ layer }) => layer === 'BEND');
    expect(bends.map(({ type }) => type)).toEqual(['LINE', 'LINE', 'LINE', 'LINE']);
    expect(bends.map(({ length }) => Math.round(length * 1e6) / 1e6).sort((a, b) => a - b)).toEqual([
      124, 124, 184, 184,
    ]);
    const words = entities.filter(({ text }) => text?.startsWith('bend 90 deg up'));
    expect(words).toHaveLength(4);
    expect(words.every(({ layer }) => layer === 'NOTE')).toBe(true);
  });

  test('encloses the area of the flat pattern', () => {
    const { entities } = measureDxf(reflectorDxf());
    const [outer] = entities.filter(({ layer }) => layer === 'CUT_OUTER');
    // 130 x 190, strips of 8.199115 along every side (2 x 130 + 2 x 190 = 640); at each corner 2 x 2 mm of face, 2 x 2 x 8.199115 of
    // strips, three quarters of a relief circle of 1 mm, and two corners of 4 mm rounded off.
    const corner = 4 + 4 * 8.199115 + 0.75 * Math.PI + 2 * (1 - Math.PI / 4) * 16;
    expect(outer?.area).toBeCloseTo(130 * 190 + 640 * 8.199115 - 4 * corner, 2);
  });

  test('has the holes that were asked for, by their sizes', () => {
    const { entities } = measureDxf(reflectorDxf());
    const round = entities.filter(({ layer, diameter }) => layer !== 'NOTE' && diameter !== undefined);
    const count = (size: number) => round.filter(({ diameter }) => Math.abs((diameter ?? 0) - size) < 1e-6).length;
    // Clamp 6.6 (M6), flange 2.7, drain 4, gland 12.5, mounting 4.5, fixing 3.4, body of the connector 4.3.
    expect([6.6, 2.7, 4, 12.5, 4.5, 3.4, 4.3].map(count)).toEqual([4, 4, 2, 1, 4, 2, 1]);
  });
});

describeWithClients(['librecad', 'mutool'], 'the cut file of a folded reflector in LibreCAD', () => {
  test('is drawn', () => {
    expect(librecadStrokes(reflectorDxf())).toBeGreaterThan(20);
  });
});

describeWithClients(['inkscape'], 'the drawings of a folded reflector in Inkscape', () => {
  test('the template has the flat size and its bend lines where they were worked out', () => {
    const boxes = boundsInInkscape(drawing('templates/reflector-template.svg'));
    const [finish, bends] = [boxes.get('finish-line'), boxes.get('bend-lines')];
    expect(finish?.width).toBeCloseTo(FLAT_WIDTH + 0.15, 1);
    expect(finish?.height).toBeCloseTo(FLAT_HEIGHT + 0.15, 1);
    expect(Math.abs((bends?.width ?? 0) - 2 * 64.099558 - 0.15)).toBeLessThan(0.02);
    expect(Math.abs((bends?.height ?? 0) - 2 * 94.099558 - 0.15)).toBeLessThan(0.02);
  });

  test('the exploded picture has a number for each finding with a place, on the page', () => {
    const placed = findings.filter(({ at, severity }) => at !== undefined && severity !== 'note');
    expect(placed.map(({ code }) => code)).toEqual(['studs-meet-in-spacer']);
    const boxes = boundsInInkscape(drawing('pictures/antenna-exploded.svg'));
    const [page, markers, words] = ['paper', 'finding-markers', 'finding-words'].map((id) => boxes.get(id));
    if (page === undefined || markers === undefined || words === undefined) throw new Error('markers are missing');
    // One circle of 2.2 mm radius with its rim.
    expect(markers.width).toBeCloseTo(4.4 + 0.35, 1);
    for (const box of [markers, words]) {
      expect(box.x).toBeGreaterThan(page.x);
      expect(box.y).toBeGreaterThan(page.y);
      expect(box.x + box.width).toBeLessThan(page.x + page.width);
      expect(box.y + box.height).toBeLessThan(page.y + page.height);
    }
  });
});

describeWithClients(['xmllint'], 'the drawings of a folded reflector in xmllint', () => {
  test('are well formed', () => {
    for (const file of emitSvg(assembly, { findings })) expect(xmlComplaints(file.bytes)).toBe('');
  });
});
