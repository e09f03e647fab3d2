import type { Bounds, Point } from '@sheetwave/geometry';
import { plain } from './number.ts';
import type { Pen } from './pen.ts';
import { spread } from './spread.ts';
import { halfCapital, textBox } from './text-size.ts';

/** A running dimension: where it is, what it says, and where its label stands after neighbours made room. */
export interface Ordinate {
  readonly at: number;
  readonly text: string;
  readonly labelAt: number;
}

export interface OrdinateRow {
  readonly axis: 'x' | 'y';
  readonly ordinates: readonly Ordinate[];
  /** Side of the part the row stands at: y of its lower edge for `x`, x of its left edge for `y`. */
  readonly edge: number;
  readonly sizeMm: number;
}

/** Clear of the part, then straight, then a slanted step to where the label stands, then straight again. */
const GAP = 1.5;
const STRAIGHT = 4;
const STEP = 5;
const TAIL = 1.5;

/** Baseline distance of neighbours as a multiple of the font size: capitals 0.74, descender 0.24, some air. */
const PITCH = 1.25;

/**
 * Running dimensions along one edge from a datum, one for every distinct place (to 1 µm), labels spread so that none overlaps.
 * Running dimensions from a datum: ISO 129-1 section on running dimensioning (memory).
 */
export function ordinateRow(row: {
  readonly axis: 'x' | 'y';
  readonly places: readonly number[];
  readonly datum: number;
  readonly edge: number;
  readonly sizeMm: number;
  /** Page mm for one mm of the part; default 1. Places, datum and edge are where they stand on the page. */
  readonly scale?: number;
  /** What a label says of a distance from the datum in mm; default the number alone. */
  readonly words?: (valueMm: number) => string;
}): OrdinateRow {
  const words = row.words ?? ((valueMm: number) => plain(valueMm));
  const places = distinct(row.places);
  const labels = spread(places, row.sizeMm * PITCH);
  const ordinates = places.map((at, index) => ({
    at,
    text: words((at - row.datum) / (row.scale ?? 1)),
    labelAt: labels[index] ?? at,
  }));
  return { axis: row.axis, ordinates, edge: row.edge, sizeMm: row.sizeMm };
}

/** Ascending, without repeats closer than 1 µm. */
function distinct(places: readonly number[]): readonly number[] {
  const microns = new Set(places.map((place) => Math.round(place * 1000)));
  return [...microns].sort((a, b) => a - b).map((micron) => micron / 1000);
}

/** The box the row takes, labels included. */
export function ordinateBox(row: OrdinateRow): Bounds {
  const labels = row.ordinates.map((ordinate) => labelBox(row, ordinate));
  const first = labels[0];
  if (first === undefined) throw new Error('a row of dimensions needs at least one place');
  return labels.reduce(
    (box, label) => ({
      minX: Math.min(box.minX, label.minX),
      minY: Math.min(box.minY, label.minY),
      maxX: Math.max(box.maxX, label.maxX),
      maxY: Math.max(box.maxY, label.maxY),
    }),
    first,
  );
}

function labelBox(row: OrdinateRow, ordinate: Ordinate): Bounds {
  return textBox(ordinate.text, labelPoint(row, ordinate), {
    sizeMm: row.sizeMm,
    anchor: 'end',
    upright: row.axis === 'y',
  });
}

/** Where the label's line ends: it reads toward the part. */
function labelPoint(row: OrdinateRow, ordinate: Ordinate): Point {
  const away = row.edge - GAP - STRAIGHT - STEP - TAIL - 0.8;
  const baseline = halfCapital(row.sizeMm);
  return row.axis === 'x' ? { x: ordinate.labelAt + baseline, y: away } : { x: away, y: ordinate.labelAt - baseline };
}

export function drawOrdinates(pen: Pen, row: OrdinateRow): void {
  for (const ordinate of row.ordinates) {
    pen.polyline(leader(row, ordinate));
    pen.text(labelPoint(row, ordinate), ordinate.text, {
      sizeMm: row.sizeMm,
      anchor: 'end',
      upright: row.axis === 'y',
    });
  }
}

function leader(row: OrdinateRow, ordinate: Ordinate): readonly Point[] {
  const { edge } = row;
  const stops: readonly (readonly [number, number])[] = [
    [ordinate.at, edge - GAP],
    [ordinate.at, edge - GAP - STRAIGHT],
    [ordinate.labelAt, edge - GAP - STRAIGHT - STEP],
    [ordinate.labelAt, edge - GAP - STRAIGHT - STEP - TAIL],
  ];
  return stops.map(([along, across]) => (row.axis === 'x' ? { x: along, y: across } : { x: across, y: along }));
}
