import { emitSvg } from '@sheetwave/emit-svg';
import { type Assembly, bounds, type EmittedFile, type Part } from '@sheetwave/geometry';
import { expect, test } from 'vitest';
import { describeWithClients } from './client.ts';
import { exampleAssemblies } from './example-assemblies.ts';
import { type Box, boundsInInkscape, inkInRsvg, xmlComplaints } from './svg-clients.ts';

interface Drawing {
  readonly name: string;
  readonly assembly: Assembly;
  readonly file: EmittedFile;
}

const drawings: readonly Drawing[] = exampleAssemblies().flatMap(({ name, assembly }) =>
  emitSvg(assembly).map((file) => ({ name: `${name} ${file.path}`, assembly, file })),
);
/** Inkscape puts Bezier curves in the place of arcs, which moves the bounds of round ends by up to 0.01 mm. */
const TRUE_SIZE_MM = 0.02;

const ofKind = (kind: EmittedFile['kind']) => drawings.filter(({ file }) => file.kind === kind);

type FlatPart = Extract<Part, { form: 'plate' | 'board' }>;

function partOf({ assembly, file }: Drawing): FlatPart {
  const part = assembly.parts.find(({ id }) => id === file.part);
  if (part?.form === 'plate' || part?.form === 'board') return part;
  throw new Error(`${file.path} is not the drawing of a plate or a board`);
}

function boxOf(boxes: ReadonlyMap<string, Box>, id: string): Box {
  const box = boxes.get(id);
  if (box === undefined) throw new Error(`no ${id} in the drawing`);
  return box;
}

/** The part's holes from the upper left corner of its outline, as the sheet shows them. */
function holesOnPage(part: FlatPart, outline: Box, strokeMm: number) {
  const edges = bounds(part.outline.outer);
  return part.outline.holes.map(
    ({ centre, diameterMm }) =>
      [
        outline.x + strokeMm / 2 + centre.x - edges.minX,
        outline.y + strokeMm / 2 + edges.maxY - centre.y,
        diameterMm,
      ] as const,
  );
}

describeWithClients(['xmllint'], 'xmllint', () => {
  test.each(drawings)('finds $name well formed', ({ file }) => {
    expect(xmlComplaints(file.bytes)).toBe('');
  });
});

// Widths of the lines as the drawings state them: 0.25 mm around a drill map's part, 0.15 mm for a finish line.
describeWithClients(['inkscape', 'rsvg-convert', 'python-images'], 'drill maps in Inkscape and librsvg', () => {
  test.each(ofKind('drill-map-svg'))('$name is at true size, holes where the part has them', (drawing) => {
    const part = partOf(drawing);
    const boxes = boundsInInkscape(drawing.file.bytes);
    const outline = boxOf(boxes, 'outline');
    const edges = bounds(part.outline.outer);
    expect(Math.abs(outline.width - 0.25 - (edges.maxX - edges.minX))).toBeLessThan(TRUE_SIZE_MM);
    expect(Math.abs(outline.height - 0.25 - (edges.maxY - edges.minY))).toBeLessThan(TRUE_SIZE_MM);

    const bar = boxOf(boxes, 'scale-bar');
    expect([50, 100]).toContain(Math.round(bar.width * 1000) / 1000);
    const square = boxOf(boxes, 'check-square');
    expect([square.width, square.height].map((side) => Math.round(side * 1000) / 1000)).toEqual([20, 20]);

    const holes = holesOnPage(part, outline, 0.25);
    // From a little before the bar to a little behind it.
    const around = [bar.x - 3, bar.y, bar.x + bar.width + 3, bar.y + bar.height] as const;
    const ink = inkInRsvg(drawing.file.bytes, { bars: [around], holes });
    expect(Math.abs((ink.bars[0] ?? 0) - bar.width)).toBeLessThan(0.1);
    expect(ink.holes).toHaveLength(holes.length);
    ink.holes.forEach(([x, y, diameter], index) => {
      const [wantedX, wantedY, wanted] = holes[index] ?? [0, 0, 0];
      expect(Math.hypot(x - wantedX, y - wantedY)).toBeLessThan(0.05);
      expect(Math.abs(diameter - wanted)).toBeLessThan(0.06);
    });
  });
});

describeWithClients(['inkscape'], 'templates in Inkscape', () => {
  test.each(ofKind('template-svg'))('$name has its finish line at true size', (drawing) => {
    const part = partOf(drawing);
    const boxes = boundsInInkscape(drawing.file.bytes);
    const edges = bounds(part.outline.outer);
    const line = boxOf(boxes, 'finish-line');
    expect(Math.abs(line.width - 0.15 - (edges.maxX - edges.minX))).toBeLessThan(TRUE_SIZE_MM);
    expect(Math.abs(line.height - 0.15 - (edges.maxY - edges.minY))).toBeLessThan(TRUE_SIZE_MM);
    expect([50, 100]).toContain(Math.round(boxOf(boxes, 'scale-bar').width * 1000) / 1000);
    const holes = [...boxes].filter(([id]) => /^hole-[A-Z]+\d+$/.test(id));
    const diameters = (list: readonly number[]) => [...list].sort((a, b) => a - b);
    const drawn = diameters(holes.map(([, box]) => box.width - 0.1));
    const wanted = diameters(part.outline.holes.map(({ diameterMm }) => diameterMm));
    expect(drawn).toHaveLength(wanted.length);
    for (const [index, diameter] of wanted.entries()) expect(drawn[index]).toBeCloseTo(diameter, 2);
  });
});

describeWithClients(['inkscape'], 'pictures in Inkscape', () => {
  test.each(ofKind('picture-svg'))('$name keeps its labels on the page and apart', ({ file }) => {
    const boxes = boundsInInkscape(file.bytes);
    const page = boxOf(boxes, 'paper');
    const labels = [...boxes].filter(([id]) => id.startsWith('callout-')).map(([, box]) => box);
    expect(labels.length).toBeGreaterThan(1);
    for (const box of labels) {
      expect(box.x).toBeGreaterThan(page.x);
      expect(box.x + box.width).toBeLessThan(page.x + page.width);
      expect(box.y).toBeGreaterThan(page.y);
      expect(box.y + box.height).toBeLessThan(page.y + page.height);
    }
    const sorted = [...labels].sort((a, b) => a.y - b.y);
    sorted.slice(1).forEach((box, index) => {
      const above = sorted[index] ?? box;
      expect(above.y + above.height).toBeLessThan(box.y);
    });
  });
});
