import {
  drawOrdinates,
  grow,
  heightOf,
  ordinateBox,
  ordinateRow,
  type Pen,
  plain,
  textBox,
  union,
  widthOf,
} from '@sheetwave/drawings';
import { type Bounds, boundsOfPoints, type Point, type Point3, type RodPart } from '@sheetwave/geometry';
import { type PartSheet, type PlanFigure, table } from '../document.ts';
import { scaleFor, scaleWords } from './drawing-scale.ts';

const WIDE_MM = 140;
const WORDS = { sizeMm: 2.4 } as const;
const BETWEEN = 12;

/** The straight blank with the middles of its bends, and the rod as it is bent. */
export function rodSheet(part: RodPart): PartSheet {
  const { bends, developedLengthMm, rod } = part;
  return {
    part: part.id,
    figure: rodFigure(part),
    tables: [
      table(
        'Blank',
        ['diameter', 'cut to', 'inside radius of every bend'],
        [[plain(rod.diameterMm), plain(developedLengthMm), bends.length > 0 ? plain(part.bendRadiusMm) : 'not bent']],
      ),
      ...(bends.length > 0 ? [bendTable(part)] : []),
      table('Legs, from corner to corner', ['leg', 'length'], legs(part)),
    ],
  };
}

function bendTable({ bends }: RodPart) {
  const head = ['bend', 'its middle from the end of the blank', 'angle', 'turn the rod first by'];
  const rows = bends.map(({ atMm, angleDeg, twistDeg }, index) => [
    String(index + 1),
    plain(atMm),
    `${plain(angleDeg, 1)}°`,
    `${plain(twistDeg, 1)}°`,
  ]);
  return table('Bends', head, rows);
}

function legs({ corners }: RodPart): readonly (readonly string[])[] {
  return corners.slice(1).map((to, index) => {
    const from = corners[index] ?? to;
    return [String(index + 1), plain(Math.hypot(to.x - from.x, to.y - from.y, to.z - from.z))];
  });
}

function rodFigure(part: RodPart): PlanFigure {
  const { developedLengthMm, rod } = part;
  const shape = flatShape(part.corners);
  const shapeBox = boundsOfPoints(shape);
  const longest = Math.max(developedLengthMm, widthOf(shapeBox));
  const scale = scaleFor({ widthMm: longest, heightMm: heightOf(shapeBox) }, { widthMm: WIDE_MM, heightMm: 90 });
  const thick = Math.max(rod.diameterMm * scale, 0.3);
  const blank: Bounds = { minX: 0, maxX: developedLengthMm * scale, minY: -thick / 2, maxY: thick / 2 };
  const row = ordinateRow({
    axis: 'x',
    places: [0, ...part.bends.map(({ atMm }) => atMm * scale), developedLengthMm * scale],
    datum: 0,
    edge: blank.minY,
    sizeMm: WORDS.sizeMm,
    scale,
  });
  const below = ordinateBox(row).minY - BETWEEN;
  const points = shape.map(({ x, y }) => ({
    x: (x - shapeBox.minX) * scale + thick / 2,
    y: below + (y - shapeBox.maxY) * scale - thick / 2,
  }));
  const bent = part.bends.length > 0;
  const box = [
    ordinateBox(row),
    captionBox(BLANK, blank.maxY),
    ...(bent ? [grow(boundsOfPoints(points), thick), captionBox(BENT, below)] : []),
  ];
  return {
    id: `drawing-${part.id}`,
    caption: `${part.name}: ${bent ? 'the straight blank, and bent' : 'cut to length'}. ${scaleWords(scale)}; dimensions in mm.`,
    alt: `Rod of ${plain(rod.diameterMm)} mm, blank ${plain(developedLengthMm)} mm long${bent ? `, with ${part.bends.length} bends` : ''}. The tables below give every dimension.`,
    box: grow(box.reduce(union, blank), 2),
    toScale: true,
    draw: (pen) => {
      drawBlank(pen, blank, { part, scale });
      drawOrdinates(pen.group(`dimensions-${part.id}`, { stroke: '#000000', width: 0.13, fill: 'none' }), row);
      if (bent) drawBent(pen, points, { thick, y: below });
    },
  };
}

const BLANK = 'blank, with the middle of each bend';
const BENT = 'bent';
const captionBox = (words: string, y: number): Bounds => textBox(words, { x: 0, y: y + 2 }, WORDS);

function drawBlank(pen: Pen, blank: Bounds, { part, scale }: { readonly part: RodPart; readonly scale: number }): void {
  pen.box(blank, { stroke: '#000000', width: 0.2, fill: '#e4e4e4' });
  const marks = part.bends.map(({ atMm }) => {
    const x = atMm * scale;
    return [
      { x, y: blank.minY - 0.8 },
      { x, y: blank.maxY + 0.8 },
    ] as const;
  });
  if (marks.length > 0) pen.lines(marks, { stroke: '#000000', width: 0.25, fill: 'none' });
  pen.text({ x: 0, y: blank.maxY + 2 }, part.bends.length > 0 ? BLANK : 'blank', WORDS);
}

function drawBent(pen: Pen, points: readonly Point[], at: { readonly thick: number; readonly y: number }): void {
  pen.polyline(points, { stroke: '#000000', width: at.thick + 0.3, fill: 'none', join: 'round', cap: 'butt' });
  pen.polyline(points, { stroke: '#e4e4e4', width: at.thick - 0.1, fill: 'none', join: 'round', cap: 'butt' });
  pen.text({ x: 0, y: at.y + 2 }, BENT, WORDS);
}

/** Seen along the axis in which it reaches least. */
function flatShape(corners: readonly Point3[]): readonly Point[] {
  const reach = (axis: keyof Point3): number => {
    const values = corners.map((corner) => corner[axis]);
    return Math.max(...values) - Math.min(...values);
  };
  const axes = (['x', 'y', 'z'] as const).map((axis) => ({ axis, reach: reach(axis) }));
  const [across, up] = [...axes].sort((a, b) => b.reach - a.reach);
  if (across === undefined || up === undefined) throw new Error('a rod has three axes');
  return corners.map((corner) => ({ x: corner[across.axis], y: corner[up.axis] }));
}
