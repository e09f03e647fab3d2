import type { Pen } from '@sheetwave/drawings';
import {
  type Contour,
  foldedReflector,
  moveContour,
  type Part,
  type Placement,
  type Point,
  placeContour,
  placePoint,
} from '@sheetwave/geometry';
import { hexagon } from './hexagon.ts';
import { ACCENT, blend, INK, PAPER, TONES, tonesOf } from './palette.ts';
import { drawStrokedRod } from './rod-stroke.ts';
import { scaleContour, scalePoint } from './scale.ts';
import type { Piece } from './tiers.ts';
import type { View } from './top-view.ts';

const EDGE = 0.25;

/** From the back to the front, so that what is nearer covers what is farther. */
export function drawParts(canvas: Pen, view: View): void {
  const ordered = [...view.assembly.placements].sort((a, b) => heightKey(view, a) - heightKey(view, b));
  const byLevel = canvas.group('antenna', { stroke: INK, width: EDGE, join: 'round' });
  for (const placement of ordered) {
    const part = view.parts.get(placement.part);
    if (part !== undefined) drawPart(byLevel, view, { part, placement });
  }
}

/** Bought pieces sort by their lowest point; a long screw from the back must not cover the patch in front of it. */
function heightKey(view: View, placement: Placement): number {
  const part = view.parts.get(placement.part);
  if (part?.form === 'bought' && part.item.kind === 'screw' && placement.at.z > 0)
    return placement.at.z + part.item.lengthMm;
  return placement.at.z;
}

function drawPart(pen: Pen, view: View, piece: Piece): void {
  const { part, placement } = piece;
  const centre = scalePoint(placement.at, view.scale);
  switch (part.form) {
    case 'plate':
    case 'board':
      drawFlat(pen, view, { part, placement });
      return;
    case 'rod':
      drawStrokedRod(
        pen,
        part.corners.map((corner) => scalePoint(placePoint(corner, placement), view.scale)),
        {
          widthMm: part.rod.diameterMm * view.scale,
          tones: tonesOf(part.rod.material.name),
        },
      );
      return;
    case 'tube': {
      const ends = [
        { x: 0, y: 0 },
        { x: part.lengthMm, y: 0 },
      ].map((end) => scalePoint(placePoint(end, placement), view.scale));
      drawStrokedRod(pen, ends, { widthMm: part.tube.outerMm * view.scale, tones: tonesOf(part.tube.material.name) });
      return;
    }
    case 'printed-spacer':
      pen.circle(centre, (part.outerMm / 2) * view.scale, { fill: TONES.plastic.mid });
      return;
    case 'bought':
      drawBought(pen, view, { part, placement });
      return;
  }
}

function drawFlat(
  pen: Pen,
  view: View,
  piece: { readonly part: Extract<Part, { form: 'plate' | 'board' }>; readonly placement: Placement },
): void {
  const { part, placement } = piece;
  const { scale } = view;
  const toPage = (contour: Contour): Contour => scaleContour(placeContour(contour, placement), scale);
  const holes = part.outline.holes.map(
    (hole): Contour => ({ kind: 'circle', centre: hole.centre, radiusMm: hole.diameterMm / 2 }),
  );
  const folded = part.role === 'reflector' ? foldedReflector(view.assembly) : undefined;
  const outer = toPage(folded?.face ?? part.outline.outer);
  const front = placement.layer !== undefined && placement.layer > 0;
  if (placement.layer !== undefined) drawShadow(pen, outer, placement.at.z * scale);
  const tones = part.form === 'plate' ? tonesOf(part.sheet.material.name) : TONES.laminate;
  const fill = part.role === 'reflector' ? tones.light : front ? blend(tones.light, PAPER, 0.35) : tones.mid;
  const contours = [outer, ...[...part.outline.cutouts, ...holes].map(toPage)];
  pen.contours(contours, { fill, fillOpacity: front ? 0.62 : 1, width: EDGE });
  for (const { from, to, highMm } of folded?.edges ?? []) {
    // Seen from in front a fold to the back is only the bend along the edge.
    const style = highMm > 0 ? { fill: tones.mid, width: EDGE } : { fill: 'none', width: 0.12 };
    pen.box({ minX: from.x * scale, maxX: to.x * scale, minY: from.y * scale, maxY: to.y * scale }, style);
  }
  if (part.form === 'board') drawCopper(pen, { part, toPage, base: fill, front });
}

function drawCopper(
  pen: Pen,
  board: {
    readonly part: Extract<Part, { form: 'board' }>;
    readonly toPage: (contour: Contour) => Contour;
    readonly base: string;
    readonly front: boolean;
  },
): void {
  const pieces = board.part.copper.top.length > 0 ? board.part.copper.top : board.part.copper.bottom;
  for (const piece of pieces) {
    const fill = piece.polarity === 'clear' ? board.base : TONES.copper.light;
    pen.contours([board.toPage(piece.contour)], { fill, fillOpacity: board.front ? 0.7 : 1, stroke: 'none' });
  }
  for (const hole of board.part.outline.holes)
    pen.contours([board.toPage({ kind: 'circle', centre: hole.centre, radiusMm: hole.diameterMm / 2 })], {
      fill: PAPER,
      width: 0.15,
    });
}

/** A soft edge toward the lower right, longer the higher the sheet stands: the depth cue. */
function drawShadow(pen: Pen, outer: Contour, heightMm: number): void {
  const reach = Math.min(2.4, 0.25 * heightMm + 0.3);
  for (const part of [1, 0.5])
    pen.contours([moveContour(outer, { x: reach * part, y: -reach * part })], {
      fill: '#3a2c10',
      fillOpacity: 0.12,
      stroke: 'none',
    });
}

function drawBought(
  pen: Pen,
  view: View,
  piece: { readonly part: Extract<Part, { form: 'bought' }>; readonly placement: Placement },
): void {
  const { item } = piece.part;
  const centre = scalePoint(piece.placement.at, view.scale);
  if (piece.placement.at.z < 0 && item.kind !== 'coax') return;
  switch (item.kind) {
    case 'spacer':
    case 'nut':
      pen.polygon(hexagon(centre, item.acrossMm * view.scale), { fill: tonesOf(item.material.name).mid });
      return;
    case 'washer':
      pen.circle(centre, (item.outerMm / 2) * view.scale, { fill: tonesOf(item.material.name).light });
      return;
    case 'screw':
      pen.circle(centre, (item.headDiameterMm / 2) * view.scale, { fill: tonesOf(item.material.name).mid });
      pen.lines(slot(centre, item.headDiameterMm * 0.25 * view.scale), { width: EDGE });
      return;
    case 'coax':
      pen.circle(centre, (item.dielectricMm / 2) * view.scale, { fill: PAPER });
      pen.circle(centre, Math.max(0.3, (item.pinMm / 2) * view.scale), { fill: TONES.steel.dark, stroke: 'none' });
      return;
    case 'connector':
      return;
  }
}

function slot(centre: Point, half: number): readonly (readonly [Point, Point])[] {
  return [
    [
      { x: centre.x - half, y: centre.y },
      { x: centre.x + half, y: centre.y },
    ],
    [
      { x: centre.x, y: centre.y - half },
      { x: centre.x, y: centre.y + half },
    ],
  ];
}

export function drawFeedPoints(pen: Pen, view: View): void {
  const group = pen.group('feed-points', { fill: ACCENT, stroke: PAPER, width: 0.15 });
  const radius = Math.min(0.9, Math.max(0.35, 0.7 * view.scale));
  for (const element of view.assembly.elements) group.circle(scalePoint(element.feedPoint, view.scale), radius);
}
