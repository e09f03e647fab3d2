import type { Layer } from '@sheetwave/design';
import type { Assembly } from '../assembly.ts';

/** The layer of the design that a part belongs to, by where it is placed; undefined for what belongs to none. */
export function partLayer(assembly: Assembly, part: string): Layer | undefined {
  const placement = assembly.placements.find((p) => p.part === part && p.layer !== undefined);
  return placement?.layer === undefined ? undefined : assembly.design.layers[placement.layer];
}
