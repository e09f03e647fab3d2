import type { Assembly, Point } from '@sheetwave/geometry';
import { halfExtents } from './convex.ts';
import { fittingInscription, lettering, MARGIN_MM } from './engraving.ts';
import { movedFlat, polygon, without } from './flat-shapes.ts';
import { levelsFiles } from './levels-file.ts';
import type { Printed } from './print.ts';
import { type StackView, stackView } from './stack-view.ts';

const PATH = 'jigs/height-gauge';
const THICK_MM = 3;
const POST_MM = 9;
const LEAST_POST_MM = 3;
/** How far a tooth reaches under its layer. */
const TOOTH_MM = 4;
const LEAST_TOOTH_MM = 1;
/** Between the post and the widest layer. */
const PLAY_MM = 1;
const TOOTH_HEIGHT_MM = 2.5;
/** The post rises to a handle at least this high. */
const HANDLE_MM = 20;

/** A comb that stands on the reflector beside a stack: the top of each tooth is where the underside of a layer must be. */
export function heightGauge(assembly: Assembly): Printed {
  const view = roomiest([stackView(assembly, 0), stackView(assembly, 90)]);
  if (view.layers.length === 0) return { files: [], notes: [] };
  if (Math.min(...reachesMm(view)) < LEAST_TOOTH_MM)
    return { files: [], notes: ['height gauge left out: a layer is hardly wider than its spacer'] };
  const teeth = teethMm(view);
  const postMm = Math.min(POST_MM, gapMm(view) - PLAY_MM - Math.max(...teeth));
  if (postMm < LEAST_POST_MM)
    return { files: [], notes: ['height gauge left out: neighbouring stacks leave it no room'] };
  return gaugeFiles(assembly, view, { teeth, postMm });
}

const roomiest = (views: readonly [StackView, StackView]): StackView =>
  gapMm(views[1]) > gapMm(views[0]) ? views[1] : views[0];

const halfWidths = (view: StackView): readonly number[] => view.layers.map((layer) => halfExtents(layer.outline).x);
const gapMm = (view: StackView): number => view.pitch.x - 2 * Math.max(0, ...halfWidths(view));

/** How far a tooth comes under each layer, short of the spacers. */
const reachesMm = (view: StackView): readonly number[] =>
  halfWidths(view).map((half) => Math.min(TOOTH_MM, half - view.coreRadiusMm - PLAY_MM));

/** Length of each tooth from the post: to the edge of its layer, and on under it. */
function teethMm(view: StackView): readonly number[] {
  const halves = halfWidths(view);
  const widest = Math.max(...halves);
  const reaches = reachesMm(view);
  return halves.map((half, k) => PLAY_MM + widest - half + (reaches[k] ?? 0));
}

/** Counter-clockwise from the outer foot; x toward the stack, y up from the reflector. */
function combCorners(view: StackView, { teeth, postMm }: Comb, handleMm: number): readonly Point[] {
  const corners: Point[] = [{ x: 0, y: 0 }];
  let below = 0;
  for (const [k, { undersideMm, topMm }] of view.layers.entries()) {
    const tip = postMm + (teeth[k] ?? 0);
    const low = k === 0 ? 0 : undersideMm - Math.min(TOOTH_HEIGHT_MM, (undersideMm - below) / 2);
    if (k > 0) corners.push({ x: postMm, y: low });
    corners.push({ x: tip, y: low }, { x: tip, y: undersideMm }, { x: postMm, y: undersideMm });
    below = topMm;
  }
  return [...corners, { x: postMm, y: handleMm }, { x: 0, y: handleMm }];
}

interface Comb {
  readonly teeth: readonly number[];
  readonly postMm: number;
}

function gaugeFiles(assembly: Assembly, view: StackView, comb: Comb): Printed {
  const { print, revision } = assembly.design;
  const letters = lettering(print);
  const across = { widthMm: Number.POSITIVE_INFINITY, heightMm: comb.postMm - 2 * MARGIN_MM };
  const text = fittingInscription([`GAUGE ${revision}`], letters, across);
  const top = view.layers.at(-1)?.topMm ?? 0;
  const handleMm = Math.max(top + HANDLE_MM, text === undefined ? 0 : text.widthMm + 2 * MARGIN_MM);
  const outline = polygon(combCorners(view, comb, handleMm));
  // Turned a quarter, so that it reads along the post.
  const letterFlat = (text?.flat ?? []).map((loop) => loop.map(({ x, y }) => ({ x: 0 - y, y: x })));
  const engraved = movedFlat(letterFlat, {
    x: (comb.postMm + (text?.heightMm ?? 0)) / 2,
    y: handleMm - MARGIN_MM - (text?.widthMm ?? 0),
  });
  const files = levelsFiles({
    path: PATH,
    title: 'height gauge of a stack',
    use: 'Print one. It stands on the reflector beside a stack; the top of each tooth is where the underside of a layer must be.',
    part: undefined,
    bevelMm: print.elephantFootMm,
    levels: [
      { flat: outline, topMm: THICK_MM - letters.depthMm },
      { flat: without(outline, text === undefined ? [] : [engraved]), topMm: THICK_MM },
    ],
  });
  return { files, notes: text === undefined ? ['height gauge: its post is too narrow for its name'] : [] };
}
