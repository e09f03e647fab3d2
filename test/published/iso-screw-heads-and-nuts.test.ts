/**
 * Largest head diameter and height of screws, and width across flats and largest height of nuts, mm, typed from handbook tables.
 * ISO 4762 socket heads: confirmed to M5, M6 from memory. ISO 7380-1 button heads: confirmed. ISO 7045 pan heads: M4 confirmed,
 * the rest from memory (one table gives 5.7 for M3 and 9.2 for M5). ISO 4032 nuts: confirmed to M5, M6 from memory.
 * ISO 4035 thin nuts and ISO 7089 washers: memory.
 */
import { stock } from '@sheetwave/design';
import { describe, expect, it } from 'vitest';

type Row = readonly [thread: string, diameter: number, height: number];

const heads: Readonly<Record<string, readonly Row[]>> = {
  socket: [
    ['M2', 3.8, 2],
    ['M2.5', 4.5, 2.5],
    ['M3', 5.5, 3],
    ['M4', 7, 4],
    ['M5', 8.5, 5],
    ['M6', 10, 6],
  ],
  button: [
    ['M3', 5.7, 1.65],
    ['M4', 7.6, 2.2],
    ['M5', 9.5, 2.75],
    ['M6', 10.5, 3.3],
  ],
  pan: [
    ['M2', 4, 1.6],
    ['M2.5', 5, 2.1],
    ['M3', 5.6, 2.4],
    ['M4', 8, 3.1],
    ['M5', 9.5, 3.7],
    ['M6', 12, 4.6],
  ],
};

describe.each(Object.entries(heads))('%s heads', (head, rows) => {
  it.each(rows)('%s: %d mm wide, %d mm high', (thread, diameter, height) => {
    const screws = stock.screw.filter((screw) => screw.head === head && screw.thread === thread);
    expect(screws.length).toBeGreaterThan(0);
    for (const screw of screws) expect([screw.headDiameterMm, screw.headHeightMm]).toEqual([diameter, height]);
  });

  it('come in no other thread', () => {
    const threads = new Set(stock.screw.filter((screw) => screw.head === head).map((screw) => screw.thread));
    expect([...threads].sort()).toEqual(rows.map(([thread]) => thread).sort());
  });
});

const nuts: readonly (readonly [thread: string, across: number, height: number, thin: number])[] = [
  ['M2', 4, 1.6, 1.2],
  ['M2.5', 5, 2, 1.6],
  ['M3', 5.5, 2.4, 1.8],
  ['M4', 7, 3.2, 2.2],
  ['M5', 8, 4.7, 2.7],
  ['M6', 10, 5.2, 3.2],
];

describe('nuts', () => {
  it.each(nuts)('%s: %d mm across flats, %d mm high, thin %d mm', (thread, across, height, thin) => {
    const known = stock.nut.filter((nut) => nut.thread === thread);
    expect(new Set(known.map((nut) => nut.acrossMm))).toEqual(new Set([across]));
    const heights = (isThin: boolean) =>
      new Set(known.filter((nut) => nut.id.includes('-thin-') === isThin).map((nut) => nut.heightMm));
    expect(heights(false)).toEqual(new Set([height]));
    expect(heights(true)).toEqual(new Set([thin]));
  });
});

describe('washers', () => {
  it.each([
    ['M2', 2.2, 5, 0.3],
    ['M2.5', 2.7, 6, 0.5],
    ['M3', 3.2, 7, 0.5],
    ['M4', 4.3, 9, 0.8],
    ['M5', 5.3, 10, 1],
    ['M6', 6.4, 12, 1.6],
  ] as const)('%s: %d x %d x %d mm', (thread, inner, outer, thickness) => {
    const known = stock.washer.filter((washer) => washer.thread === thread);
    expect(known.length).toBeGreaterThan(0);
    for (const washer of known) {
      expect([washer.innerMm, washer.outerMm, washer.thicknessMm]).toEqual([inner, outer, thickness]);
    }
  });
});
