import { sizeWords, timesWords } from '@sheetwave/drawings';
import { boundsOfPoints, type Point, type Point3 } from '@sheetwave/geometry';
import { onPage } from './axonometry.ts';
import type { Callout } from './callouts.ts';
import type { Lifted } from './explode.ts';
import { pointsOf, type Scene } from './exploded-scene.ts';

/** One label for each part of each tier, at the piece furthest to the right. */
export function calloutsOf(scene: Scene): readonly Callout[] {
  const chosen = new Map<string, { readonly lifted: Lifted; readonly anchor: Point; readonly count: number }>();
  for (const lifted of scene.lifted) {
    const key = `${lifted.tier} ${lifted.shown.piece.placement.layer ?? ''} ${lifted.shown.piece.part.id}`;
    const anchor = anchorOf(scene, lifted);
    const known = chosen.get(key);
    const count = (known?.count ?? 0) + 1;
    const further = known === undefined || anchor.x > known.anchor.x;
    chosen.set(key, further ? { lifted, anchor, count } : { ...known, count });
  }
  return [...chosen.values()].map(({ lifted, anchor, count }, index) => {
    const { part } = lifted.shown.piece;
    const size = part.form === 'bought' && part.lengthMm === undefined ? [] : [sizeWords(part)];
    return {
      id: `${index}-${part.id}`,
      anchor,
      title: part.name,
      lines: [...size, countWords(scene, part.quantity, count)],
    };
  });
}

/** A part that sits in several places says how many sit here. */
function countWords(scene: Scene, quantity: number, here: number): string {
  return scene.whole && here < quantity ? `${here} here, ${quantity} in all` : timesWords(quantity);
}

/** A point on the piece, near its right end, so that leaders do not cross the drawing. */
function anchorOf(scene: Scene, lifted: Lifted): Point {
  const points = (lifted.tier === 'reflector' ? faceOf(lifted) : pointsOf(lifted)).map((point) =>
    onPage({ scale: scene.scale }, point),
  );
  const box = boundsOfPoints(points);
  const right = points.reduce((best, point) => (point.x > best.x + 1e-9 ? point : best));
  const centre = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
  // A reflector has a hole in its corner: its label points at the edge beside it.
  if (lifted.tier === 'reflector') {
    const lowest = points.reduce((best, point) => (point.y < best.y - 1e-9 ? point : best));
    return towards(towards(right, lowest, 0.12), centre, 0.03);
  }
  return towards(right, centre, 0.12);
}

/** Corners of the largest body: of a folded reflector its face, without the edges that stand up or down. */
function faceOf({ shown, liftMm }: Lifted): readonly Point3[] {
  const [largest] = [...(shown.solid?.prisms ?? [])].sort((a, b) => areaOf(b.outer) - areaOf(a.outer));
  return (largest?.outer ?? []).map((point) => ({ ...point, z: (largest?.to ?? 0) + liftMm }));
}

function areaOf(ring: readonly Point[]): number {
  const box = boundsOfPoints(ring);
  return (box.maxX - box.minX) * (box.maxY - box.minY);
}

const towards = (from: Point, to: Point, part: number): Point => ({
  x: from.x + (to.x - from.x) * part,
  y: from.y + (to.y - from.y) * part,
});
