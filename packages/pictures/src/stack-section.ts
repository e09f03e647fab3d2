import type { Pen } from '@sheetwave/drawings';
import { arrowHead, drawOrdinates, grow, ordinateBox, union, wholeMillimetres } from '@sheetwave/drawings';
import type { Assembly, Bounds } from '@sheetwave/geometry';
import { calloutsBox, drawCallouts } from './callouts.ts';
import { FAINT, INK, PAPER, QUIET, SOFT } from './palette.ts';
import type { Picture } from './picture.ts';
import { drawPictureTitle, type PictureTitle, pictureTitleBox } from './picture-title.ts';
import { drawPanel, pagePoint } from './section-parts.ts';
import { DRAWN_WIDTH, levelsOf, type Panel, type Section, sectionOf } from './section-view.ts';
import { gapPlaceMm, gapsOf } from './section-words.ts';

const EDGE = 0.18;

/** A cut through one stack along its resonant length, to scale, with its heights. */
export function stackSection(assembly: Assembly, drawnWidthMm = DRAWN_WIDTH): Picture {
  const section = sectionOf(assembly, drawnWidthMm);
  return {
    page: pageOf(section),
    title: `${assembly.design.name}: section of one stack`,
    about: `Revision ${assembly.design.revision}. Cut along the resonant length; heights in mm above the reflector's front.`,
    draw: (pen) => draw(pen, section),
  };
}

function titleOf(section: Section): PictureTitle {
  const { design } = section.assembly;
  return {
    at: { x: ordinateBox(section.heights).minX, y: section.extent.maxY + 16 },
    name: design.name,
    words: `section of one stack along the resonant length, revision ${design.revision}; heights in mm above the reflector’s front`,
  };
}

function pageOf(section: Section): Bounds {
  const title = pictureTitleBox(titleOf(section));
  const column = calloutsBox(section.callouts) ?? title;
  const captions = { ...section.extent, minY: section.extent.minY - 7 };
  return wholeMillimetres(grow([title, column, ordinateBox(section.heights)].reduce(union, captions), 8));
}

function draw(pen: Pen, section: Section): void {
  pen.box(pageOf(section), { fill: PAPER, stroke: 'none', id: 'paper' });
  drawPictureTitle(pen, titleOf(section));
  drawLevels(pen, section);
  drawPanel(pen.group('stack', { stroke: INK, width: EDGE, join: 'round' }), section, section.stack);
  if (section.entry !== undefined)
    drawPanel(pen.group('coax-entry', { stroke: INK, width: EDGE, join: 'round' }), section, section.entry);
  drawGaps(pen, section);
  drawCaptions(pen, section);
  drawOrdinates(pen.group('heights', { stroke: SOFT, width: 0.15, fill: 'none' }), section.heights);
  drawCallouts(pen, section.callouts);
}

const CAPTION = { sizeMm: 2.8, anchor: 'middle', colour: QUIET } as const;

function drawCaptions(pen: Pen, section: Section): void {
  const y = section.extent.minY - 5;
  const middle = ({ plane, shift }: Panel): number => shift + ((plane.right - plane.left) / 2) * section.scale;
  if (section.entry !== undefined) pen.text({ x: middle(section.entry), y }, 'at the coax', CAPTION);
  pen.text({ x: middle(section.stack), y }, 'through a stack', CAPTION);
}

/** Fine lines across the drawing carry the heights from the left to the sheets they belong to. */
function drawLevels(pen: Pen, section: Section): void {
  const { scale, extent } = section;
  const lines = levelsOf(section.assembly).map(
    (z) =>
      [
        { x: extent.minX, y: z * scale },
        { x: extent.maxX, y: z * scale },
      ] as const,
  );
  pen.lines(lines, { id: 'levels', stroke: FAINT, width: 0.1, fill: 'none' });
}

function drawGaps(pen: Pen, section: Section): void {
  const group = pen.group('gaps', { stroke: INK, width: 0.15, fill: 'none' });
  for (const gap of gapsOf(section.assembly)) {
    const s = gapPlaceMm(section.assembly);
    const [low, high] = [gap.fromMm, gap.toMm].map((z) => pagePoint(section, section.stack, { s, z }));
    if (low === undefined || high === undefined) continue;
    group.line(low, high);
    const lengthMm = Math.min(2, (high.y - low.y) * 0.35);
    arrowHead(group, low, { direction: { x: 0, y: -1 }, lengthMm, colour: INK });
    arrowHead(group, high, { direction: { x: 0, y: 1 }, lengthMm, colour: INK });
  }
}
