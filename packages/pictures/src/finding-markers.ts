import { type Finding, renderFinding } from '@sheetwave/design';
import { type Pen, textWidth, union, wrapText } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';
import { onPage } from './axonometry.ts';
import type { Lifted } from './explode.ts';
import type { Scene } from './exploded-scene.ts';
import { INK, PAPER } from './palette.ts';

const RED = '#c3182b';
const RADIUS = 2.2;
const NUMBER = 2.6;
const SIZE = 2.6;
const LINE = 3.8;
const HEADING = 3.2;
const HEADING_LINE = 6;
const INDENT = 7;

/** A finding with its number and where it is drawn; undefined when the picture does not show its place. */
export interface Marker {
  readonly number: number;
  readonly at: Point | undefined;
  readonly lines: readonly string[];
}

export interface MarkerList {
  readonly markers: readonly Marker[];
  readonly box: Bounds;
}

/** Numbers the findings that have a place, and sets their sentences below `under`, within its width. Undefined when there are none. */
export function markersOf(scene: Scene, findings: readonly Finding[], under: Bounds): MarkerList | undefined {
  const width = under.maxX - under.minX;
  const placed = findings.filter((finding) => finding.at !== undefined && finding.severity !== 'note');
  if (placed.length === 0) return undefined;
  const taken: Point[] = [];
  const markers = placed.map((finding, index): Marker => {
    const at = beside(placeOf(scene, finding), taken);
    if (at !== undefined) taken.push(at);
    return { number: index + 1, at, lines: wrapText(renderFinding(finding), width - INDENT, { sizeMm: SIZE }) };
  });
  const lines = markers.reduce((sum, { lines: own }) => sum + own.length, 0);
  const heightMm = HEADING_LINE + lines * LINE + markers.length * 1.6;
  const top = under.minY - 8;
  return { markers, box: { minX: under.minX, maxX: under.maxX, maxY: top, minY: top - heightMm } };
}

/** Where the piece that a finding is about is drawn, pulled apart as it is. */
function placeOf(scene: Scene, { at, parts = [] }: Finding): Point | undefined {
  if (at === undefined) return undefined;
  for (const part of parts) {
    const [nearest] = scene.lifted
      .filter((one) => one.shown.piece.part.id === part)
      .sort((a, b) => distance(a, at) - distance(b, at));
    if (nearest !== undefined) return onPage({ scale: scene.scale }, pointOn(nearest, at));
  }
  return undefined;
}

function distance({ shown }: Lifted, at: Point): number {
  return Math.hypot(shown.centre.x - at.x, shown.centre.y - at.y);
}

/** Sheets and rods are marked at the place itself; what stands upright in its own middle. */
function pointOn({ shown, liftMm }: Lifted, at: Point): Point & { z: number } {
  const { part } = shown.piece;
  const z = (shown.fromMm + shown.toMm) / 2 + liftMm;
  const upright = part.form === 'bought' || part.form === 'printed-spacer';
  return upright ? { ...shown.centre, z } : { x: at.x, y: at.y, z };
}

/** Two markers of one place stand side by side. */
function beside(at: Point | undefined, taken: readonly Point[]): Point | undefined {
  if (at === undefined) return undefined;
  const free = { x: at.x, y: at.y };
  while (taken.some((other) => Math.hypot(other.x - free.x, other.y - free.y) < 2 * RADIUS)) free.x -= 2 * RADIUS + 0.4;
  return free;
}

export function drawMarkers(pen: Pen, { markers, box }: MarkerList): void {
  const circles = pen.group('finding-markers');
  for (const { number, at } of markers) if (at !== undefined) drawNumber(circles, at, number);
  const words = pen.group('finding-words');
  words.text({ x: box.minX, y: box.maxY - HEADING }, 'To settle before building', {
    sizeMm: HEADING,
    bold: true,
    colour: INK,
  });
  let y = box.maxY - HEADING_LINE;
  for (const { number, lines } of markers) {
    drawNumber(words, { x: box.minX + RADIUS, y: y - LINE / 2 + 0.3 }, number);
    for (const line of lines) {
      words.text({ x: box.minX + INDENT, y: y - SIZE }, line, { sizeMm: SIZE, colour: INK });
      y -= LINE;
    }
    y -= 1.6;
  }
}

function drawNumber(pen: Pen, at: Point, number: number): void {
  pen.circle(at, RADIUS, { fill: RED, stroke: PAPER, width: 0.35 });
  const sizeMm = number < 10 ? NUMBER : NUMBER * 0.8;
  pen.text({ x: at.x - textWidth(`${number}`, { sizeMm, bold: true }) / 2, y: at.y - sizeMm * 0.36 }, `${number}`, {
    sizeMm,
    bold: true,
    colour: PAPER,
  });
}

/** The box of everything, with the list when there is one. */
export const withMarkers = (box: Bounds, list: MarkerList | undefined): Bounds =>
  list === undefined ? box : union(box, list.box);
