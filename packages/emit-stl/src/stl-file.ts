import { facetNormal, type Triangle, type Vertex } from './mesh.ts';

const HEADER_BYTES = 80;
const FACET_BYTES = 50;

/**
 * A binary STL file: 80 bytes of header, the number of facets, then normal, three corners and two zero bytes for each.
 * Little-endian, single precision. The format has no unit, so the header states millimetres.
 * Throws when the header is not plain ASCII, is too long, or begins with `solid`, the mark of the text form.
 */
export function writeStl(triangles: readonly Triangle[], header: string): Uint8Array {
  requireHeader(header);
  const bytes = new Uint8Array(HEADER_BYTES + 4 + FACET_BYTES * triangles.length).fill(0x20, 0, HEADER_BYTES);
  for (let i = 0; i < header.length; i++) bytes[i] = header.charCodeAt(i);
  const view = new DataView(bytes.buffer);
  view.setUint32(HEADER_BYTES, triangles.length, true);
  triangles.forEach((triangle, i) => {
    const numbers = [facetNormal(triangle), ...triangle].flat();
    const at = HEADER_BYTES + 4 + FACET_BYTES * i;
    numbers.forEach((value, n) => {
      view.setFloat32(at + 4 * n, value, true);
    });
  });
  return bytes;
}

/** The facets of a binary STL file. Throws when its length does not match its facet count. */
export function readStl(bytes: Uint8Array): readonly Triangle[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = bytes.length < HEADER_BYTES + 4 ? -1 : view.getUint32(HEADER_BYTES, true);
  if (bytes.length !== HEADER_BYTES + 4 + FACET_BYTES * count)
    throw new Error(`binary STL: ${bytes.length} bytes do not hold ${count} facets`);
  return Array.from({ length: count }, (_, i) => {
    const at = HEADER_BYTES + 4 + FACET_BYTES * i;
    return [readVertex(view, at + 12), readVertex(view, at + 24), readVertex(view, at + 36)];
  });
}

const readVertex = (view: DataView, at: number): Vertex => [
  view.getFloat32(at, true),
  view.getFloat32(at + 4, true),
  view.getFloat32(at + 8, true),
];

function requireHeader(header: string): void {
  if (!/^[\x20-\x7e]{1,80}$/.test(header)) throw new Error(`STL header must be 1 to 80 ASCII characters: "${header}"`);
  if (/^\s*solid/i.test(header)) throw new Error('a binary STL header must not begin with "solid"');
}
