import { type Assembly, type Bounds, bounds, type Point } from '@sheetwave/geometry';
import { around, centreOf, grow, rimOf, union } from './box.ts';
import { crossLines } from './cross-lines.ts';
import { drillAdvice } from './drill-size.ts';
import { groupHoles, type HoleGroup, type LabelledHole } from './hole-groups.ts';
import { plain } from './number.ts';
import { drawOrdinates, type OrdinateRow, ordinateBox, ordinateRow } from './ordinates.ts';
import type { PartDrawing } from './part-drawing.ts';
import { capitalised, type FlatPart, thicknessOf, titleRows } from './part-words.ts';
import type { Pen } from './pen.ts';
import { type PlacedLabel, placeLabels } from './place-labels.ts';
import { barFor, printCheck } from './print-check.ts';
import { tableBlock } from './table-block.ts';
import { textBox } from './text-size.ts';
import { titleBlock } from './title-block.ts';
import { wordsBlock } from './words-block.ts';

const DIMENSION_SIZE = 2.4;
const LABEL_SIZE = 2;
const CAPTION_SIZE = 3;

/** Everything a drill map shows, worked out before the page is opened. */
interface Plan {
  readonly part: FlatPart;
  readonly edges: Bounds;
  /** Where dimensions count from; a round part has its centre lines, because its edges give nothing to measure from. */
  readonly datum: Point;
  readonly round: boolean;
  readonly groups: readonly HoleGroup[];
  readonly rows: readonly [OrdinateRow, OrdinateRow];
  readonly labels: readonly PlacedLabel[];
}

/**
 * The drill map of a part at 1:1; undefined for a part without holes.
 * Each hole has its circle, centre cross and letter; running dimensions count from the left and the lower edge.
 */
export function drillMap(assembly: Assembly, part: FlatPart): PartDrawing | undefined {
  if (part.outline.holes.length === 0) return undefined;
  const plan = planOf(part);
  return {
    drawing: drawingBox(plan),
    blocks: blocksOf(assembly, plan),
    title: `${assembly.design.name}: drill map of the ${part.name}`,
    about: `Scale 1:1, seen from the front. Revision ${assembly.design.revision}. Print at 100 %.`,
    draw: (pen) => draw(pen, plan),
  };
}

function planOf(part: FlatPart): Plan {
  const edges = bounds(part.outline.outer);
  const round = part.outline.outer.kind === 'circle';
  const datum = round ? centreOf(edges) : { x: edges.minX, y: edges.minY };
  const groups = groupHoles(part.outline.holes);
  const rows = rowsOf(part, { edges, datum });
  return { part, edges, datum, round, groups, rows, labels: labelsOf(groups, { rows, edges }) };
}

function rowsOf(part: FlatPart, from: { readonly edges: Bounds; readonly datum: Point }): Plan['rows'] {
  const { edges, datum } = from;
  const centres = part.outline.holes.map((hole) => hole.centre);
  const across = [edges.minX, edges.maxX, ...centres.map((centre) => centre.x)];
  const up = [edges.minY, edges.maxY, ...centres.map((centre) => centre.y)];
  return [
    ordinateRow({ axis: 'x', places: across, datum: datum.x, edge: edges.minY, sizeMm: DIMENSION_SIZE }),
    ordinateRow({ axis: 'y', places: up, datum: datum.y, edge: edges.minX, sizeMm: DIMENSION_SIZE }),
  ];
}

function labelsOf(
  groups: readonly HoleGroup[],
  surround: { readonly rows: Plan['rows']; readonly edges: Bounds },
): readonly PlacedLabel[] {
  const holes = groups.flatMap((group) => group.holes);
  const wishes = holes.map(({ label, hole }) => ({
    text: label,
    centre: hole.centre,
    radiusMm: Math.max(hole.diameterMm / 2, crossHalf(hole.diameterMm) * Math.SQRT1_2),
  }));
  const circles = holes.map(({ hole }) => around(hole.centre, hole.diameterMm / 2));
  const rim = rimOf(surround.edges, 0.3);
  const keepClear = [...circles, ...rim, ...surround.rows.map(ordinateBox), ...wordsAround(surround.edges)];
  return placeLabels(wishes, { sizeMm: LABEL_SIZE, keepClear });
}

const crossHalf = (diameterMm: number): number => diameterMm / 2 + 1.2;

const captionAt = (edges: Bounds): Point => ({ x: centreOf(edges).x, y: edges.maxY + 7 });
const datumWordsAt = (edges: Bounds): readonly [Point, Point] => [
  { x: edges.minX - 1, y: edges.maxY + 2 },
  { x: edges.maxX + 2, y: edges.minY - 1.6 },
];

function wordsAround(edges: Bounds): readonly Bounds[] {
  const look = { sizeMm: LABEL_SIZE };
  const datums = datumWordsAt(edges).map((at) => textBox('datum', at, look));
  return [...datums, textBox('seen from the front', captionAt(edges), { sizeMm: CAPTION_SIZE, anchor: 'middle' })];
}

function drawingBox(plan: Plan): Bounds {
  const boxes = [...plan.rows.map(ordinateBox), ...plan.labels.map((label) => label.box), ...wordsAround(plan.edges)];
  return boxes.reduce(union, grow(plan.edges, 3));
}

function blocksOf(assembly: Assembly, plan: Plan) {
  const { part } = plan;
  return [
    titleBlock({ heading: `Drill map: ${part.name}`, rows: titleRows(assembly, part) }),
    tableBlock({
      id: 'hole-table',
      head: ['hole', 'diameter', 'count', 'purpose', 'drill'],
      rows: plan.groups.map((group) => holeRow(group, thicknessOf(part))),
    }),
    printCheck(barFor(plan.edges)),
    wordsBlock('notes', notesOf(plan), 180),
  ];
}

function holeRow(group: HoleGroup, sheetMm: number): readonly string[] {
  const { diameterMm, plated } = group;
  const purpose = capitalised(group.purpose) + (plated ? ', plated' : '');
  const drill = drillAdvice({ diameterMm, plated, sheetMm });
  return [group.letter, `Ø ${plain(diameterMm)} mm`, `${group.holes.length}`, purpose, drill];
}

function notesOf(plan: Plan): readonly string[] {
  const count = plan.part.outline.holes.length;
  const unlabelled = count - plan.labels.length;
  return [
    plan.round
      ? 'Dimensions in mm count from the two centre lines.'
      : 'Dimensions in mm count from the two datum edges, drawn heavy: left and bottom.',
    'Centre-punch each cross, clamp the part flat on a wooden backing, drill at low speed, remove the burr on both faces.',
    'Thin sheet grabs and spins when the drill breaks through: never hold it by hand. Wear eye protection.',
    ...(unlabelled > 0 ? [`${unlabelled} holes stand too close to their neighbours to carry a letter here.`] : []),
  ];
}

function draw(pen: Pen, plan: Plan): void {
  const { outline } = plan.part;
  const metal = pen.group('part', { stroke: '#000000', width: 0.25, fill: 'none' });
  metal.contours([outline.outer], { id: 'outline' });
  if (outline.cutouts.length > 0) metal.contours(outline.cutouts, { id: 'cutouts' });
  drawDatums(pen, plan);
  drawHoles(
    pen,
    plan.groups.flatMap((group) => group.holes),
  );
  const names = pen.group('hole-labels');
  for (const label of plan.labels) names.text(label.at, label.text, { sizeMm: LABEL_SIZE, anchor: label.anchor });
  const dimensions = pen.group('dimensions', { stroke: '#000000', width: 0.13, fill: 'none' });
  for (const row of plan.rows) drawOrdinates(dimensions, row);
  pen.text(captionAt(plan.edges), 'seen from the front', { sizeMm: CAPTION_SIZE, anchor: 'middle' });
}

function drawHoles(pen: Pen, holes: readonly LabelledHole[]): void {
  const circles = pen.group('holes', { stroke: '#000000', width: 0.18, fill: 'none' });
  for (const { label, hole } of holes) circles.circle(hole.centre, hole.diameterMm / 2, { id: `hole-${label}` });
  const crosses = pen.group('crosses', { stroke: '#000000', width: 0.1, fill: 'none' });
  for (const { hole } of holes) crosses.lines(crossLines(hole.centre, crossHalf(hole.diameterMm)));
}

function drawDatums(pen: Pen, plan: Plan): void {
  const { edges } = plan;
  if (plan.round) {
    const thin = pen.group('centre-lines', { stroke: '#000000', width: 0.1, dash: [6, 1, 1, 1], fill: 'none' });
    const { x, y } = plan.datum;
    thin.line({ x: edges.minX - 1, y }, { x: edges.maxX + 1, y });
    thin.line({ x, y: edges.minY - 1 }, { x, y: edges.maxY + 1 });
    return;
  }
  const heavy = pen.group('datum-edges', { stroke: '#000000', width: 0.5, fill: 'none' });
  const out = 0.55;
  heavy.line({ x: edges.minX - out, y: edges.minY - out }, { x: edges.minX - out, y: edges.maxY });
  heavy.line({ x: edges.minX - out, y: edges.minY - out }, { x: edges.maxX, y: edges.minY - out });
  for (const at of datumWordsAt(edges)) heavy.text(at, 'datum', { sizeMm: LABEL_SIZE });
}
