import { type Design, type Hand, handOfPatch } from '@sheetwave/design';

/** The hand of circular polarisation that cut corners give, whichever layer has them; undefined for a linear antenna. */
export function circularHand(design: Design): Hand | undefined {
  return design.layers.map(({ shape }) => handOfPatch(shape)).find((hand) => hand !== undefined);
}
