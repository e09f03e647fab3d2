import {
  around,
  bendLines,
  crossLines,
  drawOrdinates,
  type FlatPart,
  groupHoles,
  grow,
  heightOf,
  type OrdinateRow,
  ordinateBox,
  ordinateRow,
  type Pen,
  type PlacedLabel,
  placeLabels,
  plain,
  rimOf,
  textBox,
  union,
  widthOf,
} from '@sheetwave/drawings';
import {
  type Bounds,
  bounds,
  boundsOfPoints,
  type Contour,
  contourPieces,
  type Outline,
  type Point,
} from '@sheetwave/geometry';
import { scaleContour } from '@sheetwave/pictures';
import type { PlanFigure } from '../document.ts';
import { datumOf } from './datum.ts';
import { scaleFor, scaleWords } from './drawing-scale.ts';

const SIZE = 2.4;
const LABEL = 2;
/** Room for the part itself; its dimensions stand outside. */
const ROOM = { widthMm: 140, heightMm: 140 } as const;
/** More running dimensions than this along an edge are not read any more: the tables have them all. */
const MOST_PLACES = 32;
const MOST_LABELS = 80;
/** More pieces of copper than this are shown by the films alone. */
const MOST_COPPER = 300;

interface Layout {
  readonly part: FlatPart;
  readonly scale: number;
  readonly outline: Outline;
  readonly edges: Bounds;
  readonly datum: Point;
  readonly rows: readonly [OrdinateRow, OrdinateRow];
  readonly labels: readonly PlacedLabel[];
}

/** A sheet or a board with its running dimensions, at the scale that suits the page. */
export function partFigure(part: FlatPart): PlanFigure {
  const layout = layoutOf(part);
  const { rows, labels, edges, scale } = layout;
  const boxes = [...rows.map(ordinateBox), ...labels.map(({ box }) => box), captionBox(edges)];
  return {
    id: `drawing-${part.id}`,
    caption: `${part.name}, seen from the front. ${scaleWords(scale)}; dimensions in mm.`,
    alt: altOf(part),
    box: grow(boxes.reduce(union, grow(edges, 2)), 1),
    toScale: true,
    draw: (pen) => draw(pen, layout),
  };
}

function layoutOf(part: FlatPart): Layout {
  const real = bounds(part.outline.outer);
  const scale = scaleFor({ widthMm: widthOf(real), heightMm: heightOf(real) }, ROOM);
  const outline: Outline = {
    outer: scaleContour(part.outline.outer, scale),
    cutouts: part.outline.cutouts.map((cutout) => scaleContour(cutout, scale)),
    holes: part.outline.holes.map((hole) => ({
      ...hole,
      centre: { x: hole.centre.x * scale, y: hole.centre.y * scale },
      diameterMm: hole.diameterMm * scale,
    })),
  };
  const edges = bounds(outline.outer);
  const datum = datumOf(outline);
  const rows = rowsOf(outline, { edges, datum, scale, copper: copperCorners(part, scale) });
  return { part, scale, outline, edges, datum, rows, labels: labelsOf(part, outline, scale) };
}

function rowsOf(
  outline: Outline,
  from: {
    readonly edges: Bounds;
    readonly datum: Point;
    readonly scale: number;
    /** Corners of the patches, then of all copper of the side that is drawn. */
    readonly copper: readonly (readonly Point[])[];
  },
): Layout['rows'] {
  const { edges, datum, scale, copper } = from;
  const marked = [...outline.holes.map(({ centre }) => centre), ...outline.cutouts.flatMap(cornersOf)];
  const all = [...marked, ...cornersOf(outline.outer)];
  const row = (axis: 'x' | 'y') => {
    const ends = axis === 'x' ? [edges.minX, edges.maxX] : [edges.minY, edges.maxY];
    const withCopper = copper.map((corners) => [...all, ...corners]).reverse();
    const choices = [...withCopper, all, marked, []].map((points) => [...ends, ...points.map((point) => point[axis])]);
    const places = choices.find((one) => count(one) <= MOST_PLACES) ?? ends;
    const edge = axis === 'x' ? edges.minY : edges.minX;
    return ordinateRow({ axis, places, datum: datum[axis], edge, sizeMm: SIZE, scale });
  };
  return [row('x'), row('y')];
}

function copperCorners(part: FlatPart, scale: number): readonly (readonly Point[])[] {
  if (part.form !== 'board') return [];
  const side = part.copper.top.length > 0 ? part.copper.top : part.copper.bottom;
  const corners = (pieces: typeof side) => pieces.flatMap(({ contour }) => cornersOf(scaleContour(contour, scale)));
  return [corners(side.filter(({ purpose }) => purpose === 'patch')), corners(side)];
}

const count = (places: readonly number[]): number => new Set(places.map((place) => Math.round(place * 1000))).size;

/** Where the lines of an outline meet; of a circle its two ends each way. */
function cornersOf(contour: Contour): readonly Point[] {
  if (contour.kind === 'circle') {
    const { minX, maxX, minY, maxY } = bounds(contour);
    return [
      { x: minX, y: minY },
      { x: maxX, y: maxY },
    ];
  }
  return contourPieces(contour).map(({ from }) => from);
}

function labelsOf(part: FlatPart, outline: Outline, scale: number): readonly PlacedLabel[] {
  const groups = groupHoles(part.outline.holes);
  const holes = groups.flatMap((group) => group.holes).slice(0, MOST_LABELS);
  const wishes = holes.map(({ label, hole }) => ({
    text: label,
    centre: { x: hole.centre.x * scale, y: hole.centre.y * scale },
    radiusMm: (hole.diameterMm * scale) / 2 + 0.8,
  }));
  const crosses = outline.holes.slice(0, MOST_LABELS).map(({ centre, diameterMm }) => around(centre, diameterMm / 2));
  const bends = bendsOf(part, scale).map(([from, to]) => grow(boundsOfPoints([from, to]), 0.3));
  return placeLabels(wishes, {
    sizeMm: LABEL,
    keepClear: [...crosses, ...bends, ...rimOf(bounds(outline.outer), 0.3)],
  });
}

const captionAt = (edges: Bounds): Point => ({ x: (edges.minX + edges.maxX) / 2, y: edges.maxY + 3 });
const CAPTION = { sizeMm: SIZE, anchor: 'middle' } as const;
const captionBox = (edges: Bounds): Bounds => textBox('top', captionAt(edges), CAPTION);

function draw(pen: Pen, layout: Layout): void {
  const { part, outline, edges, rows, labels } = layout;
  drawCopper(pen, layout);
  const metal = pen.group(`part-${part.id}`, { stroke: '#000000', width: 0.35, fill: 'none' });
  metal.contours([outline.outer]);
  if (outline.cutouts.length > 0) metal.contours(outline.cutouts);
  const holes = pen.group(`holes-${part.id}`, { stroke: '#000000', width: 0.2, fill: '#ffffff' });
  for (const { centre, diameterMm } of outline.holes) holes.circle(centre, diameterMm / 2);
  const crosses = outline.holes.flatMap(({ centre, diameterMm }) => crossLines(centre, diameterMm / 2 + 0.8));
  if (crosses.length > 0) pen.lines(crosses, { stroke: '#000000', width: 0.1, fill: 'none' });
  drawBends(pen, layout);
  for (const label of labels) pen.text(label.at, label.text, { sizeMm: LABEL, anchor: label.anchor });
  const dimensions = pen.group(`dimensions-${part.id}`, { stroke: '#000000', width: 0.13, fill: 'none' });
  for (const row of rows) drawOrdinates(dimensions, row);
  pen.text(captionAt(edges), 'top', CAPTION);
}

function drawCopper(pen: Pen, { part, scale }: Layout): void {
  if (part.form !== 'board' || part.copper.top.length > MOST_COPPER) return;
  const side = part.copper.top.length > 0 ? part.copper.top : part.copper.bottom;
  for (const { contour, polarity } of side)
    pen.contours([scaleContour(contour, scale)], { fill: polarity === 'dark' ? '#c8c8c8' : '#ffffff', stroke: 'none' });
}

function drawBends(pen: Pen, { part, scale }: Layout): void {
  const lines = bendsOf(part, scale);
  if (lines.length > 0) pen.lines(lines, { stroke: '#000000', width: 0.15, fill: 'none', dash: [6, 1.2, 0.8, 1.2] });
}

function bendsOf(part: FlatPart, scale: number): readonly (readonly [Point, Point])[] {
  if (part.form !== 'plate') return [];
  const drawn = ({ x, y }: Point): Point => ({ x: x * scale, y: y * scale });
  return bendLines(part).map(({ from, to }) => [drawn(from), drawn(to)]);
}

function altOf(part: FlatPart): string {
  const { outer, holes } = part.outline;
  const box = bounds(outer);
  const size =
    outer.kind === 'circle'
      ? `a disc of ${plain(2 * outer.radiusMm)} mm`
      : `${plain(widthOf(box))} mm wide and ${plain(heightOf(box))} mm high`;
  const drilled =
    holes.length === 0 ? 'without holes' : `with ${holes.length === 1 ? 'one hole' : `${holes.length} holes`}`;
  return `Dimensioned drawing of the ${part.name}, ${size}, ${drilled}. The tables below give every dimension.`;
}
