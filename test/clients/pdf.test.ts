import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readDesign, renderFinding } from '@sheetwave/design';
import { emitPdf } from '@sheetwave/emit-pdf';
import { type Assembly, assemble, type EmittedFile } from '@sheetwave/geometry';
import { expect, test } from 'vitest';
import { describeWithClients } from './client.ts';
import { exampleAssemblies } from './example-assemblies.ts';
import { holesOnPage, joinPages, registerMarks } from './join-pages.ts';
import { catalogueEntry, fontsOf, infoOf, structureOf, wordsOf } from './pdf-clients.ts';
import { boxOf, type Circle, type DrawnPage, tracePdf } from './pdf-trace.ts';

interface Print {
  readonly name: string;
  readonly assembly: Assembly;
  readonly file: EmittedFile;
}

const EXAMPLE = fileURLToPath(new URL('../../examples/laser-single-2g4/design.toml', import.meta.url));

/** An example with a reflector too large for one page either way, on the paper given. */
function largeAssembly(paper: string): Assembly {
  const text = readFileSync(EXAMPLE, 'utf8');
  const size = 'size = { width = "430 mm", height = "320 mm" }';
  const larger = /^size = .*$/m.test(text)
    ? text.replace(/^size = .*$/m, size)
    : text.replace('[reflector]', `[reflector]\n${size}`);
  const reading = readDesign(`${larger}\n[paper]\nsize = "${paper}"\n`);
  const made = reading.design === undefined ? undefined : assemble(reading.design);
  if (made?.assembly !== undefined) return made.assembly;
  throw new Error([...reading.findings, ...(made?.findings ?? [])].map((finding) => renderFinding(finding)).join('\n'));
}

const prints: readonly Print[] = [
  ...exampleAssemblies(),
  { name: 'large on A4', assembly: largeAssembly('a4') },
  { name: 'large on letter', assembly: largeAssembly('letter') },
].flatMap(({ name, assembly }) => emitPdf(assembly).map((file) => ({ name: `${name} ${file.path}`, assembly, file })));

const isOnPart = ({ file }: Print): boolean => file.kind === 'drill-map-pdf' || file.kind === 'template-pdf';

test('there is something to look at', () => {
  expect(prints.filter(isOnPart).length).toBeGreaterThan(10);
  expect(prints.some(({ file }) => file.kind === 'etch-mask')).toBe(true);
});

test.each(prints)('$name has the same bytes when it is made again', ({ assembly, file }) => {
  expect(emitPdf(assembly).find(({ path }) => path === file.path)?.bytes).toEqual(file.bytes);
});

// ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: letter is 8.5 x 11 inch, 215.9 x 279.4 mm. Confirmed.
describeWithClients(['qpdf', 'pdfinfo', 'pdffonts', 'mutool'], 'pages in qpdf and poppler', () => {
  test.each(prints)('$name is sound, on its paper, in its own faces', ({ file, assembly }) => {
    expect(structureOf(file.bytes)).toContain('No syntax or stream encoding errors found');
    const info = infoOf(file.bytes);
    const upright = assembly.design.paper.size === 'a4' ? [210, 297] : [215.9, 279.4];
    expect(info.pages.length).toBeGreaterThan(0);
    for (const page of info.pages) {
      const sides = [...page].sort((a, b) => a - b);
      sides.forEach((side, index) => {
        expect(Math.abs(side - (upright[index] ?? 0))).toBeLessThan(0.01);
      });
    }
    expect(info.title).toContain(assembly.design.name);
    const fonts = fontsOf(file.bytes);
    expect(fonts.length).toBeGreaterThan(0);
    expect(fonts.filter(({ embedded }) => !embedded)).toEqual([]);
  });

  // ISO 32000-1 table 28 (Lang) and table 150 (PrintScaling, DisplayDocTitle). Memory.
  test.each(prints)('$name tells viewers its language, and not to scale', ({ file }) => {
    expect(catalogueEntry(file.bytes, 'Lang')).toBe('(en-GB)');
    expect(catalogueEntry(file.bytes, 'ViewerPreferences')).toMatch(/\/PrintScaling \/None/);
    expect(catalogueEntry(file.bytes, 'ViewerPreferences')).toMatch(/\/DisplayDocTitle true/);
  });
});

/** The row of pieces of the bar at the foot of a page: black boxes with one upper edge. */
function barOf(page: DrawnPage): { readonly lengthMm: number; readonly topMm: number } {
  const boxes = page.paths
    .filter(({ kind, shade, rings }) => kind === 'fill' && shade === 0 && rings.length === 1)
    .map(({ rings }) => boxOf(rings.flat()))
    .filter((box) => Math.abs(box.maxX - box.minX - 10) < 0.1 && box.maxY - box.minY < 4);
  const foot = Math.max(...boxes.map(({ minY }) => minY));
  const row = boxes.filter(({ minY }) => Math.abs(minY - foot) < 0.001);
  return { lengthMm: Math.max(...row.map((box) => box.maxX)) - Math.min(...row.map((box) => box.minX)), topMm: foot };
}

/** Sides of the square beside the bar: a black ring of two squares. */
function squareOf(page: DrawnPage): readonly [number, number] {
  const rings = page.paths
    .filter(({ kind, rings }) => kind === 'fill' && rings.length === 2)
    .map(({ rings }) => boxOf(rings.flat()));
  const box = rings.find(({ maxX, minX }) => Math.abs(maxX - minX - 20) < 0.2);
  return box === undefined ? [Number.NaN, Number.NaN] : [box.maxX - box.minX, box.maxY - box.minY];
}

/** The same hole on two pages is one hole. */
function onceEach(circles: readonly Circle[]): readonly Circle[] {
  return circles.filter(
    (circle, index) =>
      circles.findIndex(
        (other) =>
          Math.hypot(other.at.x - circle.at.x, other.at.y - circle.at.y) < 0.05 &&
          Math.abs(other.diameterMm - circle.diameterMm) < 0.05,
      ) === index,
  );
}

describeWithClients(['mutool'], 'measured in MuPDF', () => {
  test.each(prints)('$name has a bar of 100 mm and a square of 20 mm on every page', ({ file }) => {
    for (const page of tracePdf(file.bytes)) {
      expect(Math.abs(barOf(page).lengthMm - 100)).toBeLessThan(0.1);
      for (const side of squareOf(page)) expect(Math.abs(side - 20)).toBeLessThan(0.02);
    }
  });

  test.each(prints.filter(isOnPart))(
    '$name has its holes in place, its pages joined by their marks',
    ({ file, assembly }) => {
      const part = assembly.parts.find(({ id }) => id === file.part);
      if (part?.form !== 'plate' && part?.form !== 'board') throw new Error(`${file.part} is neither plate nor board`);
      const wanted = part.outline.holes.map(({ centre, diameterMm }) => ({
        at: { x: centre.x, y: 0 - centre.y },
        diameterMm,
      }));
      const pages = tracePdf(file.bytes);
      const tiles = pages.filter(({ clip }) => clip !== undefined);
      const laid = tiles.length > 0 ? joinPages(tiles) : pages.map((page) => ({ page, shift: { x: 0, y: 0 } }));
      const sizes = wanted.map(({ diameterMm }) => diameterMm);
      const found = onceEach(laid.flatMap(holesOnPage)).filter(({ diameterMm }) =>
        sizes.some((size) => Math.abs(size - diameterMm) < 0.1),
      );
      if (file.kind === 'drill-map-pdf') expect(found).toHaveLength(wanted.length);
      if (wanted.length === 0) return;
      const [here, there] = [boxOf(found.map(({ at }) => at)), boxOf(wanted.map(({ at }) => at))];
      const [dx, dy] = [here.minX - there.minX, here.minY - there.minY];
      for (const { at, diameterMm } of wanted) {
        const nearest = Math.min(
          ...found
            .filter((circle) => Math.abs(circle.diameterMm - diameterMm) < 0.1)
            .map((circle) => Math.hypot(circle.at.x - at.x - dx, circle.at.y - at.y - dy)),
        );
        expect(nearest).toBeLessThan(0.1);
      }
    },
  );

  test('pages of a large part leave no gap, and neighbours show a band of 10 mm both', () => {
    for (const { file } of prints.filter(({ name }) => /^large.*reflector-template/.test(name))) {
      const pages = tracePdf(file.bytes).filter(({ clip }) => clip !== undefined);
      expect(pages.length).toBeGreaterThan(3);
      const windows = joinPages(pages).map(({ page: { clip }, shift }) => {
        if (clip === undefined) throw new Error('a page without a window');
        return {
          minX: clip.minX + shift.x,
          maxX: clip.maxX + shift.x,
          minY: clip.minY + shift.y,
          maxY: clip.maxY + shift.y,
        };
      });
      const whole = boxOf(
        windows.flatMap((one) => [
          { x: one.minX, y: one.minY },
          { x: one.maxX, y: one.maxY },
        ]),
      );
      // 430 by 320 mm of metal and what stands around it.
      expect(whole.maxX - whole.minX).toBeGreaterThan(430);
      expect(whole.maxY - whole.minY).toBeGreaterThan(320);
      const lefts = [...new Set(windows.map(({ minX }) => Math.round(minX * 100)))].sort((a, b) => a - b);
      const rights = [...new Set(windows.map(({ maxX }) => Math.round(maxX * 100)))].sort((a, b) => a - b);
      lefts.slice(1).forEach((left, index) => {
        expect((rights[index] ?? 0) - left).toBeCloseTo(1000, -1);
      });
      for (const page of pages)
        expect([...registerMarks(page).keys()].filter((name) => /^\d+-\d+$/.test(name))).toHaveLength(4);
    }
  });
});

describeWithClients(['pdftotext'], 'words in poppler', () => {
  test.each(prints.filter(isOnPart))(
    '$name reads in order: what it is, of what, what to do, which page',
    ({ file }) => {
      const text = wordsOf(file.bytes);
      const heading = file.kind === 'drill-map-pdf' ? 'Drill map: ' : 'Template: ';
      const first = file.kind === 'drill-map-pdf' ? 'Centre-punch each cross' : 'at 100 %, check the bar';
      const places = [heading, 'material', first, 'Print at 100 %, scaling off.', 'Page 1 of'].map((words) =>
        text.indexOf(words),
      );
      expect(places.every((place) => place >= 0)).toBe(true);
      expect([...places].sort((a, b) => a - b)).toEqual(places);
      const pages = text.match(/Page \d+ of \d+/g) ?? [];
      expect(pages).toEqual(pages.map((_, index) => `Page ${index + 1} of ${pages.length}`));
    },
  );
});
