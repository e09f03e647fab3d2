import { findStock, processes } from '@sheetwave/design';
import { type Assembly, nest, type PlatePart, rectangleContour } from '@sheetwave/geometry';
import { describe, expect, it } from 'vitest';
import { kerfNotes } from './kerf-notes.ts';
import { boughtSheet, sheetLines } from './sheet-lines.ts';

const brass = findStock('sheet', 'brass-0.5');
if (brass === undefined) throw new Error('no stock');
const part: PlatePart = {
  form: 'plate',
  role: 'patch',
  id: 'patch',
  name: 'patch',
  quantity: 5,
  sheet: { ...brass, sizesMm: [[100, 100]] },
  outline: {
    outer: rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 40, heightMm: 40 }),
    cutouts: [],
    holes: [],
  },
  marks: [],
  process: processes.laser,
};
const assembly = { parts: [part] } as unknown as Assembly;

describe('sheets to buy', () => {
  it('puts equal sheets into one line, with mass and what is left worked by hand', () => {
    // 90 mm inside the margin hold 2 x 2 of 40 + 3 mm: five patches take two sheets of 100 x 100 x 0.5 mm brass, 5 cm³ each.
    const [line, ...more] = sheetLines(nest(assembly).sheets);
    expect(more).toEqual([]);
    expect(line).toMatchObject({ id: 'sheet-brass-0.5-1', quantity: 2, pieces: 5, leftMm2: 2 * 10_000 - 5 * 1600 });
    expect(line?.massG).toBeCloseTo((5 * brass.material.densityKgM3) / 1000, 2);
    expect(line?.files).toEqual(['cut/sheet-brass-0.5-1.dxf', 'cut/sheet-brass-0.5-2.dxf']);
    // On the second sheet one patch sits in the corner, 5 + 40 + 3 mm from the edges: 52 x 100 mm are left beside it.
    expect(line?.largestLeft).toEqual({ widthMm: expect.closeTo(52, 6), heightMm: 100 });
    expect(line && boughtSheet(line)).toMatchObject({
      quantity: 2,
      size: '100 x 100 mm',
      note: '5 parts; 120 cm² left, 52 x 100 mm of it in one piece.',
    });
  });

  it('says how to find the kerf, with the readings that the assumed one would give', () => {
    // Assumed 0.2 mm: the 10 mm pair reads 10.2 and 9.8 mm (plane geometry).
    expect(kerfNotes(assembly)).toEqual([
      expect.stringMatching(/\(slot - tongue\) \/ 2.*10\.2 and 9\.8 mm.*\[process\.laser\]/),
    ]);
    expect(kerfNotes({ parts: [{ ...part, process: processes.hand }] } as unknown as Assembly)).toEqual([]);
  });
});
