import type { Assembly, Flat } from '@sheetwave/geometry';
import { engraveBed } from './engrave-bed.ts';
import { fittingInscription, lettering, MARGIN_MM } from './engraving.ts';
import type { Slab } from './field-cells.ts';
import { mirroredFlat, movedFlat } from './flat-shapes.ts';
import { heightField } from './height-field.ts';
import { type Foot, jigFoot } from './jig-foot.ts';
import { isSlim, type JigSizes, jigSizes } from './jig-sizes.ts';
import type { Triangle, Vertex } from './mesh.ts';
import type { Print, Printed } from './print.ts';
import { printable } from './printable.ts';
import { innerFace, onGrid, type Stretch } from './profile.ts';
import { type StackView, stackView } from './stack-view.ts';

/** Thickness of the ledge under every layer but the first, whose ledge stands on the reflector; mm. */
const SHELF_MM = 2;
/** How far the wall rises past the last layer. */
const RIM_MM = 2;

export interface JigPlan {
  readonly view: StackView;
  readonly sizes: JigSizes;
  readonly slabs: readonly Slab[];
}

/** The stack jig's half as a file to print twice, or no file and why. */
export function stackJig(assembly: Assembly): Printed {
  if (!assembly.design.layers.some((layer) => layer.spacer !== undefined)) return { files: [], notes: [] };
  const plan = planJig(assembly);
  if (typeof plan === 'string') return { files: [], notes: [`stack jig left out: ${plan}`] };
  const slim = isSlim(plan.sizes, assembly.design.print);
  const notes = slim
    ? [`stack jig: its wall is only ${plan.sizes.wallMm.toFixed(2)} mm, to fit between neighbours`]
    : [];
  const { print, revision } = assembly.design;
  const named = halfFile(plan, { print, revision });
  return { files: named.files, notes: [...notes, ...named.notes] };
}

/** Halves that part across the feed; along it where the harness or the neighbours leave no other way. */
function planJig(assembly: Assembly): JigPlan | string {
  const reasons: string[] = [];
  for (const view of viewsByFeed(assembly)) {
    const plan = planFor(view, assembly.design.print);
    if (typeof plan !== 'string') return plan;
    reasons.push(plan);
  }
  return reasons[0] ?? 'there is no stack';
}

function viewsByFeed(assembly: Assembly): readonly StackView[] {
  const views = [stackView(assembly, 0), stackView(assembly, 90)];
  const aside = (view: StackView): number => Math.max(0, ...view.feeds.map((feed) => Math.abs(feed.at.x)));
  return views.sort((a, b) => aside(a) - aside(b));
}

/** How far a half may have to move sideways, tried in turn: long arms hold better, short ones pass more harness. */
const TRAVELS_MM = [Infinity, 8, 6, 5, 4, 3.5, 3, 2.5, 2, 1.5];

/** The jig for one view of a stack, or why there is none. */
export function planFor(view: StackView, print: Assembly['design']['print']): JigPlan | string {
  const reasons: string[] = [];
  for (const travelMm of TRAVELS_MM) {
    const sizes = jigSizes(view, print, travelMm);
    const foot = typeof sizes === 'string' ? sizes : jigFoot(view, sizes);
    if (typeof sizes !== 'string' && typeof foot !== 'string')
      return { view, sizes, slabs: slabsOf(view, sizes, foot) };
    if (typeof foot === 'string') reasons.push(foot);
  }
  return reasons[0] ?? 'there is no stack';
}

/** From the reflector up: foot, then for each layer the slot around it and the shelf under the next. */
function slabsOf(view: StackView, sizes: JigSizes, foot: Foot): readonly Slab[] {
  const first = view.layers[0]?.undersideMm ?? 0;
  const under = ledgeFace(view, sizes, 0);
  const opened =
    foot.openings.length === 0 ? [] : [{ from: 0, to: foot.openingMm, face: under, openings: foot.openings }];
  const base = [...opened, { from: foot.openingMm, to: first, face: under, openings: [] }];
  return [...base, ...view.layers.flatMap((_, k) => slotAndShelf(view, sizes, k))];
}

function slotAndShelf(view: StackView, sizes: JigSizes, k: number): readonly Slab[] {
  const [layer, next] = view.layers.slice(k, k + 2);
  if (layer === undefined) return [];
  const face = slotFace(view, sizes, k);
  if (next === undefined) return [{ from: layer.undersideMm, to: layer.topMm + RIM_MM, face, openings: [] }];
  const shelf = next.undersideMm - Math.min(SHELF_MM, (next.undersideMm - layer.topMm) / 2);
  return [
    { from: layer.undersideMm, to: shelf, face, openings: [] },
    { from: shelf, to: next.undersideMm, face: ledgeFace(view, sizes, k + 1), openings: [] },
  ];
}

const slotFace = (view: StackView, sizes: JigSizes, k: number): readonly Stretch[] =>
  faceAt(view, sizes, { k, clearanceMm: sizes.clearanceMm });

const ledgeFace = (view: StackView, sizes: JigSizes, k: number): readonly Stretch[] =>
  faceAt(view, sizes, { k, clearanceMm: -(sizes.layers[k]?.ledgeMm ?? 0) });

function faceAt(
  view: StackView,
  sizes: JigSizes,
  at: { readonly k: number; readonly clearanceMm: number },
): readonly Stretch[] {
  const { outline } = view.layers[at.k] ?? { outline: [] };
  const reachX = sizes.layers[at.k]?.reachX ?? 0;
  const { outerX, halfY } = sizes;
  return innerFace(outline, { clearanceMm: at.clearanceMm, outerX, reachX, halfY: onGrid(halfY) });
}

/** Laid on its outer face, which bears its name: along the stack's y, its height, and toward its middle. */
export function halfFile(
  { slabs, sizes }: JigPlan,
  { print, revision }: { readonly print: Print; readonly revision: string },
): Printed {
  const heightMm = slabs.at(-1)?.to ?? 0;
  const plain = heightField(slabs, bevelMm(print, sizes));
  const engraved = engraveBed(plain, nameOn({ slabs, sizes }, { print, revision }));
  const centred = ([x, y, z]: Vertex): Vertex => [x, y - heightMm / 2, z];
  const facets = (engraved ?? plain).map(([a, b, c]): Triangle => [centred(a), centred(b), centred(c)]);
  const inward = onGrid(sizes.outerX - Math.min(...sizes.layers.map((layer) => layer.reachX)));
  const levels = [0, ...slabs.map((slab) => slab.to)].map((level) => level - heightMm / 2);
  const halfY = onGrid(sizes.halfY);
  const files = printable(facets, {
    path: 'jigs/stack-jig-half',
    title: 'half of a stack jig, print two',
    use: 'Print two. They close around one stack from both sides and hold its layers concentric, parallel and at their heights while it is fastened.',
    part: undefined,
    sizeMm: [2 * halfY, heightMm, inward],
    exactMm: [[-halfY, halfY], levels, [0, inward]],
  });
  return { files, notes: engraved === undefined ? ['stack jig: its outer face has no room for its name'] : [] };
}

/** Spread first layers must not stand proud of the edge it stands on; a slim wall keeps half of itself. */
export const bevelMm = (print: Print, sizes: JigSizes): number => Math.min(print.elephantFootMm, sizes.wallMm / 2);

/** Letters as they lie on the bed, so mirrored; above the openings of the foot. */
function nameOn(
  { slabs, sizes }: { readonly slabs: readonly Slab[]; readonly sizes: JigSizes },
  { print, revision }: { readonly print: Print; readonly revision: string },
): { readonly flat: Flat; readonly depthMm: number } | undefined {
  const letters = lettering(print, 'bed');
  const foot = slabs.filter(({ openings }) => openings.length > 0).map(({ to }) => to);
  const [low, high] = [Math.max(bevelMm(print, sizes), ...foot) + MARGIN_MM, (slabs.at(-1)?.to ?? 0) - MARGIN_MM];
  if (sizes.wallMm < 3 * letters.depthMm) return undefined;
  const room = { widthMm: 2 * (sizes.halfY - MARGIN_MM), heightMm: high - low };
  const text = fittingInscription([`STACK JIG ${revision}`, `JIG ${revision}`], letters, room);
  if (text === undefined) return undefined;
  const at = { x: -text.widthMm / 2, y: (low + high - text.heightMm) / 2 };
  return { flat: mirroredFlat(movedFlat(text.flat, at)), depthMm: letters.depthMm };
}
