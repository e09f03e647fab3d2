import {
  type Assembly,
  type Bounds,
  bounds,
  type Contour,
  type PlatePart,
  type Point,
  sawLine,
} from '@sheetwave/geometry';
import { arrowHead } from './arrow.ts';
import { bendLines, drawBendLines } from './bend-lines.ts';
import type { Block } from './block.ts';
import { around, centreOf, grow, union } from './box.ts';
import { crossLines } from './cross-lines.ts';
import { feedSide, type Side } from './feed-edge.ts';
import { edgeWords, type FinishLine, finishLine } from './finish-line.ts';
import { groupHoles, type HoleGroup } from './hole-groups.ts';
import { plain } from './number.ts';
import type { PartDrawing } from './part-drawing.ts';
import { capitalised, titleRows } from './part-words.ts';
import type { Pen } from './pen.ts';
import { type PlacedLabel, placeLabels } from './place-labels.ts';
import { barFor, printCheck } from './print-check.ts';
import { halfCapital, textBox } from './text-size.ts';
import { titleBlock } from './title-block.ts';
import { wordsBlock } from './words-block.ts';

const LABEL_SIZE = 1.8;
const WORDS_SIZE = 2.6;
const FEED_WORDS = 'feed edge';
const ARROW_MM = 8;

/**
 * The marking-out template of a plate at 1:1, to glue on the sheet.
 * Hairlines only, nothing filled over the metal, so that scriber and punch find the line; where the process gives the width of a pen, the finish
 * line is as wide as that and lies outside the part.
 */
export function markingTemplate(assembly: Assembly, part: PlatePart): PartDrawing {
  const edges = bounds(part.outline.outer);
  const groups = groupHoles(part.outline.holes);
  const labels = labelsOf(groups);
  const rough = sawLine(part.outline.outer, part.process.allowanceMm);
  const finish = finishLine(part);
  const side = feedSide(part, edges);
  const metal = grow(rough === undefined ? edges : bounds(rough), 2);
  return {
    drawing: [...labels.map((label) => label.box), feedBox(side, metal)].reduce(union, metal),
    blocks: blocksOf(assembly, { part, groups, sawLine: rough !== undefined, finish }),
    title: `${assembly.design.name}: marking-out template of the ${part.name}`,
    about: `Scale 1:1, seen from the front. Revision ${assembly.design.revision}. Print at 100 % and glue on the sheet.`,
    draw: (pen) => draw(pen, { part, edges, groups, labels, side, rough, finish, metal }),
  };
}

function labelsOf(groups: readonly HoleGroup[]): readonly PlacedLabel[] {
  const wishes = groups.flatMap((group) =>
    group.holes.map(({ hole }) => ({
      text: group.letter,
      centre: hole.centre,
      radiusMm: Math.max(hole.diameterMm / 2, 1),
    })),
  );
  const keepClear = wishes.map((wish) => around(wish.centre, wish.radiusMm));
  return placeLabels(wishes, { sizeMm: LABEL_SIZE, keepClear });
}

interface Plan {
  readonly part: PlatePart;
  readonly edges: Bounds;
  readonly groups: readonly HoleGroup[];
  readonly labels: readonly PlacedLabel[];
  readonly side: Side | undefined;
  readonly rough: Contour | undefined;
  readonly finish: FinishLine;
  /** The metal with its allowance and some air: words stand outside it. */
  readonly metal: Bounds;
}

function draw(pen: Pen, plan: Plan): void {
  const { part } = plan;
  const { finish } = plan;
  const lines = pen.group('finish', { stroke: '#000000', width: finish.widthMm, fill: 'none', join: 'miter' });
  lines.contours([finish.outer], { id: 'finish-line' });
  if (finish.cutouts.length > 0) lines.contours(finish.cutouts, { id: 'finish-cutouts' });
  const { rough } = plan;
  if (rough !== undefined)
    pen.contours([rough], { id: 'rough-line', stroke: '#000000', width: 0.12, fill: 'none', dash: [2.5, 1.5] });
  if (part.role !== 'strip') drawDiagonals(pen, plan);
  drawMarks(pen, part);
  drawBendLines(pen, part);
  drawPunchMarks(pen, plan);
  if (plan.side !== undefined) drawFeedEdge(pen, plan.side, plan.metal);
}

/** The two diagonals cross in the centre; a gap at the very centre leaves its punch mark readable. */
function drawDiagonals(pen: Pen, plan: Plan): void {
  const { edges } = plan;
  const centre = centreOf(edges);
  const round = plan.part.outline.outer.kind === 'circle';
  const reach = round ? Math.SQRT1_2 : 1;
  const [dx, dy] = [((edges.maxX - edges.minX) / 2) * reach, ((edges.maxY - edges.minY) / 2) * reach];
  const clear = 1.5 / Math.hypot(dx, dy);
  const half = (signX: number, signY: number): readonly [Point, Point] => [
    { x: centre.x + signX * dx * clear, y: centre.y + signY * dy * clear },
    { x: centre.x + signX * dx, y: centre.y + signY * dy },
  ];
  const style = { stroke: '#000000', width: 0.1, fill: 'none', dash: [4, 0.8, 0.6, 0.8], id: 'diagonals' } as const;
  pen.lines([half(1, 1), half(-1, 1), half(-1, -1), half(1, -1)], style);
  pen.lines(crossLines(centre, 1.2), { stroke: '#000000', width: 0.12, fill: 'none', id: 'centre' });
}

function drawMarks(pen: Pen, part: PlatePart): void {
  const group = pen.group('marks', { stroke: '#000000', width: 0.1, fill: 'none', dash: [1, 0.8] });
  for (const mark of part.marks) {
    if (mark.purpose === 'bend') continue;
    if (mark.kind === 'line') group.line(mark.from, mark.to);
    else if (mark.kind === 'circle') group.circle(mark.centre, mark.diameterMm / 2);
  }
}

function drawPunchMarks(pen: Pen, plan: Plan): void {
  const holes = plan.groups.flatMap((group) => group.holes);
  const circles = pen.group('holes', { stroke: '#000000', width: 0.1, fill: 'none' });
  for (const { label, hole } of holes) circles.circle(hole.centre, hole.diameterMm / 2, { id: `hole-${label}` });
  const marks = pen.group('punch-marks', { stroke: '#000000', width: 0.12, fill: 'none' });
  for (const { hole } of holes) {
    marks.lines(crossLines(hole.centre, hole.diameterMm / 2 + 1.5));
    if (hole.diameterMm > 1.6) marks.circle(hole.centre, 0.5);
  }
  const names = pen.group('hole-letters');
  for (const label of plan.labels) names.text(label.at, label.text, { sizeMm: LABEL_SIZE, anchor: label.anchor });
}

/** Which way the arrow points: from outside to the edge. */
const INWARD: Readonly<Record<Side, Point>> = {
  left: { x: 1, y: 0 },
  right: { x: -1, y: 0 },
  bottom: { x: 0, y: 1 },
  top: { x: 0, y: -1 },
};

function feedArrow(side: Side, metal: Bounds): { readonly tip: Point; readonly tail: Point } {
  const inward = INWARD[side];
  const centre = centreOf(metal);
  const tip = {
    left: { x: metal.minX, y: centre.y },
    right: { x: metal.maxX, y: centre.y },
    bottom: { x: centre.x, y: metal.minY },
    top: { x: centre.x, y: metal.maxY },
  }[side];
  return { tip, tail: { x: tip.x - inward.x * ARROW_MM, y: tip.y - inward.y * ARROW_MM } };
}

function feedWords(side: Side, metal: Bounds): { readonly at: Point; readonly anchor: 'start' | 'end' } {
  const { tail } = feedArrow(side, metal);
  const y = tail.y - halfCapital(WORDS_SIZE);
  return side === 'left'
    ? { at: { x: tail.x - 1.5, y }, anchor: 'end' }
    : { at: { x: tail.x + 1.5, y }, anchor: 'start' };
}

function feedBox(side: Side | undefined, metal: Bounds): Bounds {
  if (side === undefined) return metal;
  const { at, anchor } = feedWords(side, metal);
  return union(around(feedArrow(side, metal).tail, 1), textBox(FEED_WORDS, at, { sizeMm: WORDS_SIZE, anchor }));
}

function drawFeedEdge(pen: Pen, side: Side, metal: Bounds): void {
  const group = pen.group('feed-edge', { stroke: '#000000', width: 0.18, fill: 'none' });
  const { tip, tail } = feedArrow(side, metal);
  group.line(tail, tip);
  arrowHead(group, tip, { direction: INWARD[side], lengthMm: 2.6, colour: '#000000' });
  const { at, anchor } = feedWords(side, metal);
  group.text(at, FEED_WORDS, { sizeMm: WORDS_SIZE, anchor });
}

interface Words {
  readonly part: PlatePart;
  readonly groups: readonly HoleGroup[];
  readonly sawLine: boolean;
  readonly finish: FinishLine;
}

function blocksOf(assembly: Assembly, words: Words): readonly Block[] {
  const { part } = words;
  return [
    titleBlock({ heading: `Template: ${part.name}`, rows: titleRows(assembly, part) }),
    wordsBlock('cut-order', cutOrder(words), 98),
    printCheck(barFor(bounds(part.outline.outer))),
  ];
}

function bendOrder(part: PlatePart): readonly string[] {
  const [first] = bendLines(part);
  if (first === undefined) return [];
  return [
    `Bend last, on the dash-dotted lines: each is the middle of its bend. ${capitalised(first.words)}; up is toward you.`,
  ];
}

function cutOrder({ part, groups, sawLine, finish }: Words): readonly string[] {
  const { allowanceMm, label, toleranceMm } = part.process;
  const holes = groups.map(
    (group) => `${group.letter} Ø ${plain(group.diameterMm)} mm ${group.purpose} (${group.holes.length})`,
  );
  const copies = part.quantity === 1 ? 'Print one' : `Print ${part.quantity}`;
  return [
    `${copies} at 100 %, check the bar and the square, glue on the sheet. ${edgeWords(finish)}`,
    ...(holes.length > 0 ? [`Punch and drill first, while the sheet is whole: ${holes.join('; ')}.`] : []),
    sawLine
      ? `Then cut along the dashed line, ${plain(allowanceMm)} mm outside, and file to the full line.`
      : allowanceMm > 0
        ? `Then cut ${plain(allowanceMm)} mm outside the full line and file to it.`
        : 'Then cut on the full line.',
    ...bendOrder(part),
    `${capitalised(label)}: about ± ${plain(toleranceMm)} mm. Cut edges are sharp: gloves for the offcuts, burrs off both faces.`,
  ];
}
