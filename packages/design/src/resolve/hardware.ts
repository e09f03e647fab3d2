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

/** Thickness from the back of the reflector to the top of the outermost layer, mm. */
function stackMm(reflector: Reflector, layers: readonly Layer[]): number {
  const { material } = reflector;
  const base = material.kind === 'sheet' ? material.sheet.thicknessMm : boardMm(material.laminate);
  return layers.reduce((sum, layer) => sum + layerMm(layer) + gapMm(layer), base);
}

function isThreaded(layer: Layer | undefined): boolean {
  return layer?.spacer?.kind === 'stock' && !layer.spacer.spacer.ends.includes('plain');
}

interface Stack {
  readonly reflector: Reflector;
  readonly layers: readonly Layer[];
}

function defaultScrew(context: Context, stack: Stack, hold: Pick<Hardware, 'thread' | 'nut'>): Screw | undefined {
  const first = stack.layers.find((layer) => layer.spacer !== undefined);
  if (first === undefined || isThreaded(first)) {
    const id = `${hold.thread.toLowerCase()}-pan-6-brass`;
    return lookUp(context, { kind: 'screw', id, path: ['hardware', 'screw'] });
  }
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
