import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readDesign, renderFinding } from '@sheetwave/design';
import { emitPdf } from '@sheetwave/emit-pdf';
import { emitSvg } from '@sheetwave/emit-svg';
import { type Assembly, assemble, type BoardPart } from '@sheetwave/geometry';
import { expect, test } from 'vitest';
import { describeWithClients } from './client.ts';
import { areaOf, artworkOf, difference, inkOfPage, mismatch, type Paths, placed } from './film-model.ts';
import { inkOfPdf, inkOfSvg } from './pdf-clients.ts';
import { type Box, boxOf, circlesOf, type DrawnPage, tracePdf } from './pdf-trace.ts';

const EXAMPLE = fileURLToPath(new URL('../../examples/etched-2x2-5g5/design.toml', import.meta.url));
/** From the edge of the board to the crosses, and how far black goes beyond the edge on a negative; mm, as the films state. */
const [MARKS_OUT, RIM] = [9, 2];

type Side = 'top' | 'bottom';
const SIDES: readonly Side[] = ['top', 'bottom'];

/** The etched example with other words under [etch], and with left and right made to differ. */
function etched(words: string): { readonly assembly: Assembly; readonly board: BoardPart } {
  const reading = readDesign(`${readFileSync(EXAMPLE, 'utf8')}\n[etch]\n${words}\n`);
  const made = reading.design === undefined ? undefined : assemble(reading.design);
  const board = made?.assembly?.parts.find((part) => part.form === 'board');
  if (made?.assembly === undefined || board?.form !== 'board')
    throw new Error(
      [...reading.findings, ...(made?.findings ?? [])].map((finding) => renderFinding(finding)).join('\n'),
    );
  const lopsided = lopsidedBoard(board);
  const parts = made.assembly.parts.map((part) => (part === board ? lopsided : part));
  return { assembly: { ...made.assembly, parts }, board: lopsided };
}

/** The example is the same left and right: a land is put near one corner of the top, and an opening into the plane. */
function lopsidedBoard(board: BoardPart): BoardPart {
  const land = {
    purpose: 'land',
    polarity: 'dark',
    contour: { kind: 'circle', centre: { x: 38, y: 21 }, radiusMm: 4 },
  } as const;
  const opening = {
    purpose: 'clearance',
    polarity: 'clear',
    contour: { kind: 'circle', centre: { x: -30, y: 8 }, radiusMm: 5 },
  } as const;
  return { ...board, copper: { top: [...board.copper.top, land], bottom: [...board.copper.bottom, opening] } };
}

function filmsOf(words: string, side: Side) {
  const { assembly, board } = etched(words);
  const bytesOf = (files: readonly { readonly path: string; readonly bytes: Uint8Array }[], ending: string) => {
    const found = files.find(({ path }) => path === `etch/${board.id}-${side}-film.${ending}`);
    if (found === undefined) throw new Error(`no film of the ${side}`);
    return found.bytes;
  };
  return { board, pdf: bytesOf(emitPdf(assembly), 'pdf'), svg: () => bytesOf(emitSvg(assembly), 'svg') };
}

/** The page that has the film, its number, and the box of its crosses. */
function filmPage(pdf: Uint8Array): { readonly page: DrawnPage; readonly number: number; readonly crosses: Box } {
  const pages = tracePdf(pdf);
  const index = pages.findIndex((page) => circlesOf(page).length >= 4);
  const page = pages[index];
  if (page === undefined) throw new Error('no page with crosses');
  return { page, number: index + 1, crosses: boxOf(circlesOf(page).map(({ at }) => at)) };
}

const grown = (box: Box, by: number): Box => ({
  minX: box.minX - by,
  maxX: box.maxX + by,
  minY: box.minY - by,
  maxY: box.maxY + by,
});
const rect = (box: Box) => ({ left: box.minX, right: box.maxX, top: box.minY, bottom: box.maxY }) as never;
const boxPath = (box: Box): Paths => [
  [
    { x: box.minX, y: box.minY },
    { x: box.maxX, y: box.minY },
    { x: box.maxX, y: box.maxY },
    { x: box.minX, y: box.maxY },
  ],
];

/** What the page prints black on the board, and what the model says, laid on it with x kept or exchanged. */
function compared(pdf: Uint8Array, model: Paths, exchanged: boolean) {
  const { page, crosses } = filmPage(pdf);
  const ink = inkOfPage(page, rect(grown(crosses, 0.1 + RIM - MARKS_OUT)));
  const middle = { x: (crosses.minX + crosses.maxX) / 2, y: (crosses.minY + crosses.maxY) / 2 };
  // The page's y runs down, and the board of the example has its middle at (0, 0).
  return { ink, wanted: placed(model, { x: exchanged ? -1 : 1, y: -1 }, middle), crosses };
}

describeWithClients(['mutool'], 'films in MuPDF', () => {
  // Seen by somebody in front of that side, the top is as the model has it and the bottom has left and right exchanged; a mirrored
  // film exchanges them once more.
  test.each(
    SIDES.flatMap((side) => [true, false].map((mirror) => ({ side, mirror, exchanged: (side === 'top') === mirror }))),
  )('the $side, mirrored $mirror, prints the copper of the model and nothing else', ({ side, mirror, exchanged }) => {
    const { board, pdf } = filmsOf(`mirror = ${mirror}`, side);
    const model = artworkOf(board, side);
    const right = compared(pdf, model, exchanged);
    const area = areaOf(right.wanted);
    expect(Math.abs(areaOf(right.ink) / area - 1)).toBeLessThan(0.001);
    expect(mismatch(right.ink, right.wanted) / area).toBeLessThan(0.001);
    const wrong = compared(pdf, model, !exchanged);
    expect(mismatch(wrong.ink, wrong.wanted) / area).toBeGreaterThan(0.01);
  });

  test.each(SIDES)('a negative of the %s is black where there is to be no copper', (side) => {
    const { board, pdf } = filmsOf('film = "negative"', side);
    const { ink, wanted, crosses } = compared(pdf, artworkOf(board, side), side === 'top');
    const ground = boxPath(grown(crosses, RIM - MARKS_OUT));
    expect(mismatch(ink, difference(ground, wanted)) / areaOf(wanted)).toBeLessThan(0.001);
  });

  // Copper thickness over etch factor gives the undercut of a side (IPC-T-50, memory): 35 µm over 1.4 is 25 µm.
  test('artwork is larger than the finished copper by the undercut at each edge', () => {
    const { board, pdf } = filmsOf('', 'top');
    expect(board.process.undercutMm).toBeCloseTo(0.025, 6);
    const finished = artworkOf({ ...board, process: { ...board.process, undercutMm: 0 } }, 'top');
    const { ink, wanted } = compared(pdf, finished, true);
    expect(areaOf(difference(wanted, ink))).toBeLessThan(0.001);
    expect(areaOf(ink)).toBeGreaterThan(areaOf(wanted) * 1.005);
  });

  test('a printer measured at 99.7 mm across and 100.2 mm up prints the next film true', () => {
    const measured = filmsOf('measured = { x = "99.7 mm", y = "100.2 mm" }', 'top');
    const plain = filmsOf('', 'top');
    const [corrected, before] = [filmPage(measured.pdf).crosses, filmPage(plain.pdf).crosses];
    // What that printer makes of the film.
    expect((corrected.maxX - corrected.minX) * 0.997).toBeCloseTo(before.maxX - before.minX, 2);
    expect((corrected.maxY - corrected.minY) * 1.002).toBeCloseTo(before.maxY - before.minY, 2);
  });

  test('the crosses of both sides are the same points of the board', () => {
    const crosses = SIDES.map((side) =>
      circlesOf(filmPage(filmsOf('', side).pdf).page).map(({ at, diameterMm }) => ({ ...at, diameterMm })),
    );
    const [top = [], bottom = []] = crosses;
    expect(top).toHaveLength(5);
    const across = (list: readonly { readonly x: number; readonly y: number }[]) => boxOf(list);
    const [a, b] = [across(top), across(bottom)];
    // The bottom's sheet turned over like a page of a book.
    for (const { x, y, diameterMm } of top) {
      const met = bottom.some(
        (other) =>
          Math.abs(b.maxX - other.x - (x - a.minX)) < 0.01 &&
          Math.abs(other.y - b.minY - (y - a.minY)) < 0.01 &&
          Math.abs(other.diameterMm - diameterMm) < 0.01,
      );
      expect(met).toBe(true);
    }
  });

  test('hatching takes a few percent of the large areas and leaves each in one piece', () => {
    const { board, pdf } = filmsOf('fill = "hatched"', 'bottom');
    const { ink, wanted } = compared(pdf, artworkOf(board, 'bottom'), false);
    const left = areaOf(ink) / areaOf(wanted);
    expect(left).toBeGreaterThan(0.94);
    expect(left).toBeLessThan(0.99);
    const pieces = (paths: Paths) => paths.filter((path) => areaOf([path]) > 0).length;
    expect(pieces(ink)).toBe(pieces(wanted));
  });
});

describeWithClients(['mutool', 'pdftocairo', 'rsvg-convert', 'python-images'], 'the ink of films', () => {
  test.each(SIDES)('the %s has the area of the model in poppler and in librsvg', (side) => {
    const { board, pdf, svg } = filmsOf('', side);
    const area = areaOf(artworkOf(board, side));
    const { number, crosses } = filmPage(pdf);
    const around = grown(crosses, 1 - MARKS_OUT);
    expect(Math.abs(inkOfPdf(pdf, number, around) / area - 1)).toBeLessThan(0.001);
    const drawing = svg();
    const middle = crossesOfSvg(drawing);
    expect(Math.abs(inkOfSvg(drawing, grown(middle, 1 - MARKS_OUT)) / area - 1)).toBeLessThan(0.001);
  });
});

/** Box of the crosses of an SVG film, by plain text search: the only circles in it. */
function crossesOfSvg(svg: Uint8Array): Box {
  const text = new TextDecoder().decode(svg);
  const centres = [...text.matchAll(/<circle [^>]*cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => ({
    x: Number(x),
    y: Number(y),
  }));
  expect(centres.length).toBe(5);
  return boxOf(centres);
}
