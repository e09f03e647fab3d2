import { stringify } from 'smol-toml';
import type { DesignFile } from './schema/design-file.ts';

/**
 * TOML text of a design file given as an object; `readDesign` reads it back to what `defineDesign` makes of the object.
 * Quantities stay as they are written; `formatLength` and its like make them from numbers.
 */
export function writeDesign(file: DesignFile): string {
  return `${stringify(file).trimEnd()}\n`;
}
