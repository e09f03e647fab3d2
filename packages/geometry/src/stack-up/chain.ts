import type { Design, Spacer } from '@sheetwave/design';
import type { Assembly } from '../assembly.ts';
import { reflectorBodyThicknessMm, reflectorUndersideMm } from '../stack-heights.ts';

/** A screw or a stud that goes into a thread. */
export interface Entry {
  readonly kind: 'screw' | 'stud';
  /** Id of the part it belongs to. */
  readonly part: string;
  /** Of the screw under its head, or of the stud. */
  readonly lengthMm: number;
  /** What it goes through before the thread begins: sheet and washer. */
  readonly throughMm: number;
  /** Field of the design that chooses it. */
  readonly path: string;
}

/** How far it goes into the thread; negative when it does not reach it. */
export const goesInMm = ({ lengthMm, throughMm }: Entry): number => lengthMm - throughMm;

/** A threaded spacer of a stack and what is screwed into its two ends. */
export interface ThreadedSpacer {
  readonly spacer: Spacer;
  /** Index into `design.layers`. */
  readonly layer: number;
  readonly footMm: number;
  readonly below: Entry | undefined;
  readonly above: Entry | undefined;
}

/** A stud that ends in a nut: what is left of it behind sheet and washer. */
export interface NutEnd {
  readonly part: string;
  readonly path: string;
  readonly restMm: number;
  readonly zMm: number;
}

/** The threaded spacers of one stack from the reflector outward; empty where screws go through plain ones. */
export function threadedChain(assembly: Assembly): ThreadedSpacer[] {
  const { design, layerHeights } = assembly;
  const links = design.layers.flatMap((layer, index) => {
    const spacer = layer.spacer?.kind === 'stock' ? layer.spacer.spacer : undefined;
    const height = layerHeights[index];
    if (!spacer || !height || spacer.ends.includes('plain')) return [];
    return [
      {
        spacer,
        layer: index,
        bodyMm: height.bodyTopMm - height.bodyUndersideMm,
        footMm: height.bodyUndersideMm - spacer.bodyMm,
      },
    ];
  });
  return links.map(({ spacer, layer, bodyMm, footMm }, position) => {
    const [before, after] = [links[position - 1], links[position + 1]];
    const screwBelow = before ? undefined : screwThrough(design, reflectorBodyThicknessMm(design));
    const screwAbove = after ? undefined : screwThrough(design, bodyMm);
    const below = before ? studOf(before.spacer, 1, { throughMm: before.bodyMm, layer: before.layer }) : screwBelow;
    const above = after ? studOf(after.spacer, 0, { throughMm: bodyMm, layer: after.layer }) : screwAbove;
    return {
      spacer,
      layer,
      footMm,
      below: spacer.ends[0] === 'female' ? below : undefined,
      above: spacer.ends[1] === 'female' ? above : undefined,
    };
  });
}

/** The studs that end in nuts: behind the reflector, and in front of the outermost layer. */
export function nutEnds(assembly: Assembly): NutEnd[] {
  const { design, layerHeights } = assembly;
  const chain = threadedChain(assembly);
  const [first, last] = [chain[0], chain.at(-1)];
  const washerMm = design.hardware.washer?.thicknessMm ?? 0;
  const ends: NutEnd[] = [];
  if (first?.spacer.ends[0] === 'male')
    ends.push({
      part: first.spacer.id,
      path: `layer[${first.layer}].spacer`,
      restMm: first.spacer.studMm - reflectorBodyThicknessMm(design) - washerMm,
      zMm: reflectorUndersideMm(design) - washerMm,
    });
  const height = last && layerHeights[last.layer];
  if (last?.spacer.ends[1] === 'male' && height)
    ends.push({
      part: last.spacer.id,
      path: `layer[${last.layer}].spacer`,
      restMm: last.spacer.studMm - (height.bodyTopMm - height.bodyUndersideMm) - washerMm,
      zMm: height.bodyTopMm + washerMm,
    });
  return ends;
}

function studOf(
  spacer: Spacer,
  end: 0 | 1,
  { throughMm, layer }: { readonly throughMm: number; readonly layer: number },
): Entry | undefined {
  if (spacer.ends[end] !== 'male') return undefined;
  return { kind: 'stud', part: spacer.id, lengthMm: spacer.studMm, throughMm, path: `layer[${layer}].spacer` };
}

function screwThrough(design: Design, sheetMm: number): Entry {
  const { screw, washer } = design.hardware;
  return {
    kind: 'screw',
    part: screw.id,
    lengthMm: screw.lengthMm,
    throughMm: sheetMm + (washer?.thicknessMm ?? 0),
    path: 'hardware.screw',
  };
}
