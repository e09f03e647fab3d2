import type { EtchFilm } from '@sheetwave/design';
import { type Assembly, type BoardPart, type Bounds, etchCompensated, type Point } from '@sheetwave/geometry';
import { around, grow, union } from './box.ts';
import { crossLines } from './cross-lines.ts';
import { type BoardSide, type FilmFrame, filmFrame } from './film-frame.ts';
import { filmBlocks, sideWords } from './film-words.ts';
import { DASH, type Dash, hatchDashes } from './hatch.ts';
import type { PartDrawing } from './part-drawing.ts';
import type { Pen } from './pen.ts';
import { textBox } from './text-size.ts';

const INK = '#000000';
const CLEAR = '#ffffff';
/** Black beyond the edge of the board on a negative. */
const RIM_MM = 2;
const MARK = { radiusMm: 2.5, reachMm: 4 } as const;
const CAPTION_MM = 3;
const BAR = { lengthMm: 100, widthMm: 1, offMm: 9 } as const;

/** The film of one side of a board. */
export interface SideFilm {
  readonly part: BoardPart;
  readonly side: BoardSide;
  readonly drawing: PartDrawing;
}

/**
 * Films at 1:1 for etching at home, one for each side with copper of every board whose process is `etch`: the artwork, grown for
 * undercut as the Gerber files are, printed as `design.etchFilm` says.
 */
export function etchFilms(assembly: Assembly): readonly SideFilm[] {
  const boards = assembly.parts.filter((part) => part.form === 'board' && part.process.id === 'etch');
  return boards.flatMap((part) =>
    part.form !== 'board'
      ? []
      : (['top', 'bottom'] as const)
          .filter((side) => part.copper[side].length > 0)
          .map((side) => ({ part, side, drawing: filmDrawing(assembly, part, side) })),
  );
}

interface Plan {
  readonly board: BoardPart;
  readonly side: BoardSide;
  readonly film: EtchFilm;
  readonly frame: FilmFrame;
  readonly dashes: readonly Dash[];
}

function filmDrawing(assembly: Assembly, board: BoardPart, side: BoardSide): PartDrawing {
  const film = assembly.design.etchFilm;
  const along = assembly.design.lattice.orientation === 'vertical' ? 'y' : 'x';
  const dashes = film.fill === 'hatched' ? hatchDashes(board, side, along) : [];
  const plan = { board, side, film, frame: filmFrame(board, side, film), dashes };
  return {
    title: `${assembly.design.name}: etch film of the ${board.name}, ${side}`,
    about: `Scale 1:1, ${film.film}, ${film.mirror ? 'mirrored' : 'not mirrored'}. Revision ${assembly.design.revision}. Print at 100 %.`,
    stretch: plan.frame.stretch,
    drawing: drawingBox(plan),
    blocks: filmBlocks(assembly, plan),
    draw: (pen) => draw(pen, plan),
  };
}

function drawingBox(plan: Plan): Bounds {
  const { frame } = plan;
  const marks = frame.marks.map((mark) => around(mark, MARK.reachMm + 1)).reduce(union);
  const bar = barBox(frame);
  return [grow(bar, 3), textBox(captionWords(plan), captionAt(frame), { sizeMm: CAPTION_MM, anchor: 'middle' })].reduce(
    union,
    marks,
  );
}

function draw(pen: Pen, plan: Plan): void {
  const { frame } = plan;
  drawArtwork(pen, plan);
  drawRegister(pen, frame);
  drawEdgeTicks(pen, frame.board);
  drawBar(pen, frame);
  pen.text(captionAt(frame), captionWords(plan), { sizeMm: CAPTION_MM, anchor: 'middle' });
}

/** Painted in order, as the copper is: ink over clear and clear over ink. A negative begins with ink all over. */
function drawArtwork(pen: Pen, { board, side, film, frame, dashes }: Plan): void {
  const [dark, clear] = film.film === 'positive' ? [INK, CLEAR] : [CLEAR, INK];
  const art = pen.group('artwork', { stroke: 'none' });
  if (film.film === 'negative') art.box(grow(frame.board, RIM_MM), { fill: INK, id: 'ground' });
  for (const piece of board.copper[side]) {
    const { contour, polarity } = etchCompensated(piece, board.process.undercutMm);
    art.polygon(frame.ring(contour), { fill: polarity === 'dark' ? dark : clear });
  }
  if (dashes.length > 0)
    art.polygons(
      dashes.map((dash) => dashRing(dash).map(frame.point)),
      { fill: clear, id: 'dashes' },
    );
}

function dashRing([from, to]: Dash): readonly Point[] {
  const half = DASH.widthMm / 2;
  const [dx, dy] = from.x === to.x ? [half, 0] : [0, half];
  return [
    { x: from.x - dx, y: from.y - dy },
    { x: to.x - dx, y: to.y - dy },
    { x: to.x + dx, y: to.y + dy },
    { x: from.x + dx, y: from.y + dy },
  ];
}

/** The mark at the board's lower left corner has a second ring: two films can be laid together in one way only. */
function drawRegister(pen: Pen, frame: FilmFrame): void {
  const group = pen.group('register-marks', { stroke: INK, width: 0.15, fill: 'none' });
  frame.marks.forEach((mark, index) => {
    group.circle(mark, MARK.radiusMm);
    if (index === 0) group.circle(mark, MARK.radiusMm - 1);
    group.lines(crossLines(mark, MARK.reachMm));
  });
}

/** Short lines outside the corners, in line with the edges: where to cut the board. */
function drawEdgeTicks(pen: Pen, box: Bounds): void {
  const [near, far] = [RIM_MM + 0.5, RIM_MM + 3.5];
  const ticks = pen.group('edge-ticks', { stroke: INK, width: 0.15, fill: 'none' });
  for (const x of [box.minX, box.maxX])
    for (const [y, out] of [
      [box.minY, -1],
      [box.maxY, 1],
    ] as const)
      ticks.line({ x, y: y + out * near }, { x, y: y + out * far });
  for (const y of [box.minY, box.maxY])
    for (const [x, out] of [
      [box.minX, -1],
      [box.maxX, 1],
    ] as const)
      ticks.line({ x: x + out * near, y }, { x: x + out * far, y });
}

/** A bar of 100 mm up the sheet, left of everything: the other axis of the printer. */
function barBox({ marks, stretch }: FilmFrame): Bounds {
  const left = Math.min(...marks.map(({ x }) => x)) - BAR.offMm;
  const top = Math.max(...marks.map(({ y }) => y));
  return { minX: left, maxX: left + BAR.widthMm, maxY: top, minY: top - BAR.lengthMm * stretch.y };
}

function drawBar(pen: Pen, frame: FilmFrame): void {
  const box = barBox(frame);
  pen.box(box, { fill: INK, stroke: 'none', id: 'bar-up' });
  const at = { x: box.minX - 1, y: (box.minY + box.maxY) / 2 };
  pen.text(at, `${BAR.lengthMm} mm`, { sizeMm: 2.2, anchor: 'middle', upright: false });
}

function captionAt({ marks }: FilmFrame): Point {
  const xs = marks.map(({ x }) => x);
  return { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: Math.max(...marks.map(({ y }) => y)) + MARK.reachMm + 2 };
}

const captionWords = ({ side, film }: Plan): string =>
  `${sideWords(side)}, ${film.mirror ? 'mirrored' : 'not mirrored'}`;
