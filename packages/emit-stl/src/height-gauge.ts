import type { Assembly, EmittedFile, Point } from '@sheetwave/geometry';
import { halfExtents } from './convex.ts';
import { printable } from './printable.ts';
import { bevelledPlate } from './solid.ts';
import { type StackView, stackView } from './stack-view.ts';

const PATH = 'jigs/height-gauge.stl';
const THICK_MM = 3;
const POST_MM = 8;
const LEAST_POST_MM = 3;
/** How far a tooth reaches under its layer. */
const TOOTH_MM = 4;
/** Between the post and the widest layer. */
const PLAY_MM = 1;
const TOOTH_HEIGHT_MM = 2.5;
const BEVEL_MM = 0.4;

/** A comb that stands on the reflector beside a stack: the top of each tooth is where the underside of a layer must be. */
export function heightGauge(assembly: Assembly): {
  readonly files: readonly EmittedFile[];
  readonly notes: readonly string[];
} {
  const view = roomiest([stackView(assembly, 0), stackView(assembly, 90)]);
  if (view.layers.length === 0) return { files: [], notes: [] };
  const teeth = teethMm(view);
  const postMm = Math.min(POST_MM, gapMm(view) - PLAY_MM - Math.max(...teeth));
  if (postMm < LEAST_POST_MM)
    return { files: [], notes: ['height gauge left out: neighbouring stacks leave it no room'] };
  return { files: [gaugeFile(combCorners(view, teeth, postMm))], notes: [] };
}

const roomiest = (views: readonly [StackView, StackView]): StackView =>
  gapMm(views[1]) > gapMm(views[0]) ? views[1] : views[0];

const halfWidths = (view: StackView): readonly number[] => view.layers.map((layer) => halfExtents(layer.outline).x);
const gapMm = (view: StackView): number => view.pitch.x - 2 * Math.max(0, ...halfWidths(view));

/** Length of each tooth from the post: to the edge of its layer, and on under it, short of the spacers. */
function teethMm(view: StackView): readonly number[] {
  const halves = halfWidths(view);
  const widest = Math.max(...halves);
  return halves.map((half) => PLAY_MM + widest - half + Math.min(TOOTH_MM, half - view.coreRadiusMm - PLAY_MM));
}

/** Counter-clockwise from the outer foot; x toward the stack, y up from the reflector. */
function combCorners(view: StackView, teeth: readonly number[], postMm: number): readonly Point[] {
  const corners: Point[] = [{ x: 0, y: 0 }];
  let below = 0;
  for (const [k, { undersideMm, topMm }] of view.layers.entries()) {
    const tip = postMm + (teeth[k] ?? 0);
    const low = k === 0 ? 0 : undersideMm - Math.min(TOOTH_HEIGHT_MM, (undersideMm - below) / 2);
    if (k > 0) corners.push({ x: postMm, y: low });
    corners.push({ x: tip, y: low }, { x: tip, y: undersideMm });
    if (k < view.layers.length - 1) corners.push({ x: postMm, y: undersideMm });
    below = topMm;
  }
  return [...corners, { x: 0, y: view.layers.at(-1)?.undersideMm ?? 0 }];
}

function gaugeFile(corners: readonly Point[]): EmittedFile {
  const size = { x: Math.max(...corners.map((p) => p.x)), y: Math.max(...corners.map((p) => p.y)) };
  const centred = corners.map(({ x, y }): [number, number] => [x - size.x / 2, y - size.y / 2]);
  const solid = bevelledPlate({
    corners: centred,
    bedCorners: drawnIn(centred, BEVEL_MM),
    bevelMm: BEVEL_MM,
    thicknessMm: THICK_MM,
  });
  const levels = [...new Set(centred.map(([, y]) => y))];
  return printable(solid, {
    path: PATH,
    title: 'height gauge of a stack',
    part: undefined,
    sizeMm: [size.x, size.y, THICK_MM],
    exactMm: [[], levels, [0, THICK_MM]],
  });
}

/** Upright and level sides, counter-clockwise, each moved inward: every corner keeps one side of each kind. */
function drawnIn(
  corners: readonly (readonly [number, number])[],
  byMm: number,
): readonly (readonly [number, number])[] {
  return corners.map(([x, y], i) => {
    const sides = [corners.at(i - 1), corners[(i + 1) % corners.length]].map(([ox, oy] = [x, y], n) => {
      const sense = n === 0 ? 1 : -1;
      return { right: sense * Math.sign(x - ox), up: sense * Math.sign(y - oy) };
    });
    // Inward is left of the way along a counter-clockwise side.
    return [
      x - byMm * sides.reduce((sum, side) => sum + side.up, 0),
      y + byMm * sides.reduce((sum, side) => sum + side.right, 0),
    ];
  });
}
