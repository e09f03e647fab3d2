import { namedFiles } from '@sheetwave/design';
import type { Drawings } from '@sheetwave/pack';
import { readBeside } from './read-beside.ts';
import type { Terminal } from './terminal.ts';

/**
 * The drawings that a design names, from the folder of the design (the working folder for standard input) and below it.
 * Throws a Failure for one that cannot be read, is too large, is not text, or lies elsewhere behind a link.
 */
export async function readDrawings(designText: string, operand: string, terminal: Terminal): Promise<Drawings> {
  const drawing = { operand, kind: 'drawing', owner: 'design', asText: 'DXF in text form or as plain SVG' };
  const texts = namedFiles(designText).map(
    async (name) => [name, await readBeside({ ...drawing, name }, terminal)] as const,
  );
  return Object.fromEntries(await Promise.all(texts));
}
