import type { Hardware, Layer, Reflector } from '../design.ts';
import type { Screw } from '../stock/types.ts';
import { type Context, lookUp } from './context.ts';

/** How far a screw stands out of its nut: about two turns. */
const OVERHANG_MM = 1;

function boardMm(laminate: { readonly thicknessMm: number; readonly copperMm: number }): number {
  return laminate.thicknessMm + 2 * laminate.copperMm;
}

function layerMm({ build }: Layer): number {
  if (build.kind === 'sheet') return build.sheet.thicknessMm;
  return build.kind === 'board' ? boardMm(build.laminate) : 0;
}

function gapMm({ spacer }: Layer): number {
  if (spacer === undefined) return 0;
  return spacer.kind === 'printed' ? spacer.heightMm : spacer.spacer.bodyMm;
}

function reflectorMm({ material }: Reflector): number {
  return material.kind === 'sheet' ? material.sheet.thicknessMm : boardMm(material.laminate);
}

/** Thickness from the back of the reflector to the top of the outermost layer, mm. */
function stackMm(reflector: Reflector, layers: readonly Layer[]): number {
  return layers.reduce((sum, layer) => sum + layerMm(layer) + gapMm(layer), reflectorMm(reflector));
}

function isThreaded(layer: Layer | undefined): boolean {
  return layer?.spacer?.kind === 'stock' && !layer.spacer.spacer.ends.includes('plain');
}

interface Stack {
  readonly reflector: Reflector;
  readonly layers: readonly Layer[];
}

interface ScrewUse {
  /** Sheet under the head, mm. */
  readonly throughMm: number;
  /** Thread it may fill, mm. */
  readonly depthMm: number;
}

/** Where screws go into a chain of threaded spacers: its end at the reflector, its end in front, or both. */
function screwUses({ reflector, layers }: Stack): ScrewUse[] {
  const carried = layers.flatMap((layer) =>
    layer.spacer?.kind === 'stock' ? [{ layer, spacer: layer.spacer.spacer }] : [],
  );
  const first = carried[0];
  const last = carried.at(-1);
  // Two screws in one bore that goes through share its length.
  const share = first === last && first?.spacer.through && first.spacer.ends[0] === 'female' ? 2 : 1;
  const uses: ScrewUse[] = [];
  if (first?.spacer.ends[0] === 'female')
    uses.push({ throughMm: reflectorMm(reflector), depthMm: first.spacer.threadDepthMm / share });
  if (last?.spacer.ends[1] === 'female')
    uses.push({ throughMm: layerMm(last.layer), depthMm: last.spacer.threadDepthMm / share });
  return uses;
}

/** The longest brass pan head screw that bottoms in none of its threads; the shortest one when all would. */
function longestThatFits(context: Context, stack: Stack, thread: string): Screw | undefined {
  const uses = screwUses(stack);
  const brass = context.stock.screw.filter(
    (each) => each.thread === thread && each.head === 'pan' && each.material.name.endsWith('brass'),
  );
  const fitting = brass.filter(({ lengthMm }) =>
    uses.every(({ throughMm, depthMm }) => lengthMm - throughMm <= depthMm),
  );
  const shortest = brass.reduce<Screw | undefined>(
    (best, each) => (best && best.lengthMm <= each.lengthMm ? best : each),
    undefined,
  );
  const longest = fitting.reduce<Screw | undefined>(
    (best, each) => (best && best.lengthMm >= each.lengthMm ? best : each),
    undefined,
  );
  const found = uses.length === 0 ? brass.find((each) => each.lengthMm === 6) : longest;
  return (
    found ??
    shortest ??
    lookUp(context, { kind: 'screw', id: `${thread.toLowerCase()}-pan-6-brass`, path: ['hardware', 'screw'] })
  );
}

function defaultScrew(context: Context, stack: Stack, hold: Pick<Hardware, 'thread' | 'nut'>): Screw | undefined {
  const first = stack.layers.find((layer) => layer.spacer !== undefined);
  if (first === undefined || isThreaded(first)) return longestThatFits(context, stack, hold.thread);
  const least = stackMm(stack.reflector, stack.layers) + hold.nut.heightMm + OVERHANG_MM;
  const screw = context.stock.screw.find(
    (each) =>
      each.thread === hold.thread &&
      each.head === 'pan' &&
      each.material.name === 'zinc-plated steel' &&
      each.lengthMm >= least,
  );
  if (screw !== undefined) return screw;
  return context.report.error({
    code: 'no-screw',
    path: ['hardware', 'screw'],
    allowed: `needed: no ${hold.thread} pan head screw in stock is ${Math.ceil(least)} mm long`,
    remedy: 'name a screw, or describe your own under [stock.screw.…]',
  });
}

/** The hardware, or undefined after reporting what is wrong. */
export function resolveHardware(context: Context, stack: Stack): Hardware | undefined {
  const { thread = 'M3', fit = 'medium', screw: screwId, nut: nutId, washer: washerId } = context.file.hardware ?? {};
  const nut = lookUp(context, {
    kind: 'nut',
    id: nutId ?? `${thread.toLowerCase()}-nut-brass`,
    path: ['hardware', 'nut'],
  });
  const washer =
    washerId === undefined
      ? undefined
      : lookUp(context, { kind: 'washer', id: washerId, path: ['hardware', 'washer'] });
  if (nut === undefined || (washerId !== undefined && washer === undefined)) return undefined;
  const screw =
    screwId === undefined
      ? defaultScrew(context, stack, { thread, nut })
      : lookUp(context, { kind: 'screw', id: screwId, path: ['hardware', 'screw'] });
  return screw && { thread, fit, screw, nut, washer };
}
