import type { Side } from '@sheetwave/design';
import type { Point } from '../outline.ts';
import { foldSizes } from './flat-pattern.ts';
import { foldedFace } from './folded.ts';
import { clearanceMm, type FaceLayout, faceObstacles, type Obstacle } from './obstacles.ts';

/** Air between what goes through a new hole and what is already there, mm (common practice, no source). */
const AIR_MM = 1;

/** What a hole needs around its centre. */
export interface Room {
  /** Of the nut, head or gland that goes with it. */
  readonly radiusMm: number;
  /** From its centre to the edge of the face, or to a bend. */
  readonly edgeMm: number;
}

/** Where holes can still go on the face of a reflector. */
export interface FreeFace {
  /** What stands in the way at a point, nearest first; empty when the point is free. */
  blockers(point: Point, room: Room): readonly string[];
}

/** The face with what is on it, and with the holes that were added since. */
export function freeFace(layout: FaceLayout, added: readonly Obstacle[] = []): FreeFace {
  const obstacles = [...faceObstacles(layout), ...added];
  const [left, right] = [keptOff(layout, 'left'), keptOff(layout, 'right')];
  const [bottom, top] = [keptOff(layout, 'bottom'), keptOff(layout, 'top')];
  const { widthMm, heightMm } = layout;
  return {
    blockers: (point, { radiusMm, edgeMm }) => {
      const toEdge = Math.min(
        point.x + widthMm / 2 - left,
        widthMm / 2 - right - point.x,
        point.y + heightMm / 2 - bottom,
        heightMm / 2 - top - point.y,
      );
      const found = obstacles
        .map((obstacle) => ({ what: obstacle.what, air: clearanceMm(obstacle, point) - radiusMm }))
        .filter(({ air }) => air < AIR_MM - 1e-9)
        .sort((a, b) => a.air - b.air);
      const edge = toEdge < edgeMm - 1e-9 ? ['the edge of the reflector'] : [];
      return [...new Set([...found.map(({ what }) => what), ...edge])];
    },
  };
}

/** How much of the face beside an edge is taken by its bend and what a hole keeps off it: 2 t + R (shop rule, memory); 0 without a fold. */
export function keptOff({ design, ...size }: FaceLayout, side: Side): number {
  const face = foldedFace(design, size);
  if (!face.fold?.sides.includes(side)) return 0;
  return foldSizes(face.fold, face.thicknessMm).setbackMm + 2 * face.thicknessMm + face.fold.insideRadiusMm;
}
