/**
 * ISO 273:1979 clearance holes, fine, medium and coarse series, typed from a handbook table (confirmed; M6 fine and coarse from memory).
 * Tap drills by ISO 2306: nominal diameter less pitch, and 2.05 mm for M2.5 (confirmed to M5, M6 from memory).
 */
import { clearanceHoleMm, type Fit, tapDrillMm, threadRow } from '@sheetwave/design';
import { describe, expect, it } from 'vitest';

const table: readonly (readonly [
  thread: string,
  nominal: number,
  pitch: number,
  fine: number,
  medium: number,
  coarse: number,
  tap: number,
])[] = [
  ['M2', 2, 0.4, 2.2, 2.4, 2.6, 1.6],
  ['M2.5', 2.5, 0.45, 2.7, 2.9, 3.1, 2.05],
  ['M3', 3, 0.5, 3.2, 3.4, 3.6, 2.5],
  ['M4', 4, 0.7, 4.3, 4.5, 4.8, 3.3],
  ['M5', 5, 0.8, 5.3, 5.5, 5.8, 4.2],
  ['M6', 6, 1, 6.4, 6.6, 7, 5],
];

describe.each(table)('%s', (thread, nominal, pitch, fine, medium, coarse, tap) => {
  it('has the clearance holes of ISO 273', () => {
    const read = (['fine', 'medium', 'coarse'] satisfies Fit[]).map((fit) => clearanceHoleMm(thread, fit));
    expect(read).toEqual([fine, medium, coarse]);
  });

  it('has its coarse pitch and the tap drill that leaves a thread', () => {
    expect(threadRow(thread).pitchMm).toBe(pitch);
    expect(tapDrillMm(thread)).toBe(tap);
    expect(tap).toBeCloseTo(nominal - pitch, 9);
  });
});

it('refuses a thread it does not know', () => {
  expect(() => clearanceHoleMm('M7', 'medium')).toThrow(RangeError);
});
