import type { Design } from '@sheetwave/design';
import type { Element, HarnessSplit } from '../assembly.ts';
import { contains, distanceToContour } from '../contour-measure.ts';
import { elementTurnDeg } from '../lattice.ts';
import type { Contour, Point } from '../outline.ts';
import { patchContour } from '../patches.ts';
import { moveContour, turnContour } from '../transform.ts';

/** Something on the face of a reflector that a hole and what goes through it must keep clear of. */
export type Obstacle = { readonly what: string } & (
  | { readonly kind: 'disc'; readonly centre: Point; readonly radiusMm: number }
  | { readonly kind: 'bar'; readonly from: Point; readonly to: Point; readonly radiusMm: number }
  | { readonly kind: 'area'; readonly contour: Contour }
);

/** Free distance from a point to the obstacle, mm; negative inside it. */
export function clearanceMm(obstacle: Obstacle, point: Point): number {
  switch (obstacle.kind) {
    case 'disc':
      return apart(obstacle.centre, point) - obstacle.radiusMm;
    case 'bar':
      return distanceToSegment(point, obstacle) - obstacle.radiusMm;
    case 'area': {
      const distance = distanceToContour(obstacle.contour, point);
      return contains(obstacle.contour, point) ? -distance : distance;
    }
  }
}

/** Shortest distance from a point to a straight line between two points, mm. */
export function distanceToSegment(point: Point, { from, to }: { readonly from: Point; readonly to: Point }): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : ((point.x - from.x) * dx + (point.y - from.y) * dy) / squared;
  const t = Math.min(1, Math.max(0, along));
  return apart(point, { x: from.x + t * dx, y: from.y + t * dy });
}

export interface FaceLayout {
  readonly design: Design;
  readonly elements: readonly Element[];
  readonly splits: readonly HarnessSplit[];
  readonly coaxPoint: Point;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Everything on the face: patches, what holds them, harness, coax entry and mounting screws. */
export function faceObstacles(layout: FaceLayout): Obstacle[] {
  return [...patchAreas(layout), ...fixings(layout), ...lines(layout), coaxEntry(layout), ...mountings(layout)];
}

function patchAreas({ design, elements }: FaceLayout): Obstacle[] {
  const turnDeg = elementTurnDeg(design.lattice.orientation);
  const shapes = design.layers.map((layer) => turnContour(patchContour(layer.shape), turnDeg));
  return elements.flatMap(({ centre }) =>
    shapes.map(
      (shape, layer): Obstacle => ({
        what: `the ${design.layers[layer]?.name} patch`,
        kind: 'area',
        contour: moveContour(shape, centre),
      }),
    ),
  );
}

function fixings({ design, elements }: FaceLayout): Obstacle[] {
  if (!design.layers.some((layer) => layer.spacer)) return [];
  const { screw, nut, washer } = design.hardware;
  const radiusMm = Math.max(screw.headDiameterMm, acrossCornersMm(nut.acrossMm), washer?.outerMm ?? 0) / 2;
  return elements.map(({ centre }) => ({ what: 'the fixing of a patch', kind: 'disc', centre, radiusMm }));
}

function lines({ splits }: FaceLayout): Obstacle[] {
  const runs = splits.flatMap((split) => split.arms.flat());
  return runs.map(({ from, to, sizeMm }) => ({ what: 'the harness', kind: 'bar', from, to, radiusMm: sizeMm / 2 }));
}

function coaxEntry({ design, coaxPoint }: FaceLayout): Obstacle {
  const { connector, solderLandMm } = design.coax;
  const flange = connector?.panel ? (connector.panel.flangeMm / 2) * Math.SQRT2 : 0;
  return { what: 'the coax', kind: 'disc', centre: coaxPoint, radiusMm: Math.max(solderLandMm / 2, flange) };
}

function mountings({ design, widthMm, heightMm }: FaceLayout): Obstacle[] {
  const { mounting } = design.reflector;
  if (!mounting) return [];
  const [x, y] = [widthMm / 2 - mounting.insetMm, heightMm / 2 - mounting.insetMm];
  return [-x, x].flatMap((px) =>
    [-y, y].map(
      (py): Obstacle => ({
        what: 'a mounting screw',
        kind: 'disc',
        centre: { x: px, y: py },
        // A screw head is about twice as wide as its hole (ISO 7045: 9.5 mm at M5, whose hole is 5.5 mm).
        radiusMm: mounting.diameterMm,
      }),
    ),
  );
}

/** Across the corners of a hexagon by its flats. */
export const acrossCornersMm = (acrossFlatsMm: number): number => acrossFlatsMm / Math.cos(Math.PI / 6);

export const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
