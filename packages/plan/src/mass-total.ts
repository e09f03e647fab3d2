import { numberText } from './number-text.ts';
import type { PartLine } from './parts-list.ts';

/** Mass of everything in the list, in grams. */
const massTotalG = (parts: readonly Pick<PartLine, 'massG' | 'quantity'>[]): number =>
  parts.reduce((total, { massG, quantity }) => total + massG * quantity, 0);

/** For a person: three places are more than solder and flux leave true. */
export function massOf(parts: readonly Pick<PartLine, 'massG' | 'quantity'>[]): string {
  const grams = massTotalG(parts);
  return grams < 1000 ? `${numberText(grams, 0)} g` : `${numberText(grams / 1000, 2)} kg`;
}
