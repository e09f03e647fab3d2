import { describe, expect, test } from 'vitest';
import type { Triangle } from './mesh.ts';
import { readStl, writeStl } from './stl-file.ts';

const facet: Triangle = [
  [0, 0, 0],
  [2, 0, 0],
  [0, 3, 0],
];

// Layout of the binary form (confirmed, from the published description of the format): 80 bytes of header, uint32 count,
// then for each facet 12 little-endian float32 (normal, three corners) and a uint16 of attributes, 50 bytes.
describe('a binary file', () => {
  const bytes = writeStl([facet, facet], 'a part; unit: mm');
  const view = new DataView(bytes.buffer);

  test('has the length its count asks for', () => {
    expect(bytes.length).toBe(80 + 4 + 2 * 50);
    expect(view.getUint32(80, true)).toBe(2);
  });

  test('states its unit in a header of 80 bytes', () => {
    const header = String.fromCharCode(...bytes.subarray(0, 80));
    expect(header).toMatch(/^a part; unit: mm *$/);
  });

  test('holds normal, corners and no attributes', () => {
    const numbers = Array.from({ length: 12 }, (_, i) => view.getFloat32(84 + 4 * i, true));
    expect(numbers).toEqual([0, 0, 1, 0, 0, 0, 2, 0, 0, 0, 3, 0]);
    expect(view.getUint16(84 + 48, true)).toBe(0);
  });

  test('reads back', () => {
    expect(readStl(bytes)).toEqual([facet, facet]);
  });
});

describe('refused', () => {
  test.each([
    ['the mark of the text form', 'solid part'],
    ['the mark of the text form, in capitals', 'SOLID'],
    ['no header', ''],
    ['more than 80 characters', 'x'.repeat(81)],
    ['what is not ASCII', 'Höhe 6 mm'],
  ])('%s', (_, header) => {
    expect(() => writeStl([facet], header)).toThrow(/header/);
  });

  test('a file cut short', () => {
    expect(() => readStl(writeStl([facet], 'part').subarray(0, 100))).toThrow(/do not hold 1 facets/);
    expect(() => readStl(new Uint8Array(10))).toThrow(/10 bytes/);
  });
});
