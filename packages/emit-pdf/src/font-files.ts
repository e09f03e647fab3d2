import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const { resolve } = createRequire(import.meta.url);

/** DejaVu Sans: has every sign the drawings use (Ø, ×, ±, −), may be embedded, and is what `textWidth` was measured from. */
const PATHS = {
  regular: () => resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf'),
  bold: () => resolve('dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf'),
} as const;

export type Face = keyof typeof PATHS;

const read = new Map<Face, Uint8Array>();

/** A face of the font package, read once. The only file of this package that touches the disk: the font is part of the product. */
export function fontFile(face: Face): Uint8Array {
  const known = read.get(face);
  if (known !== undefined) return known;
  const bytes = readFileSync(PATHS[face]());
  read.set(face, bytes);
  return bytes;
}
