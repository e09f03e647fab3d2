const JOBBER_TENTHS = Array.from({ length: 33 }, (_, i) => (10 + i) / 10);

/** ISO 235 jobber drills as commonly stocked, mm: tenths from 1.0 to 4.2, then clearance and tap sizes. From memory. */
export const drillsMm: readonly number[] = Object.freeze(
  [
    ...JOBBER_TENTHS,
    ...[4.3, 4.5, 4.8, 5, 5.3, 5.5, 5.8, 6, 6.4, 6.6, 7, 8, 10, 12, 13],
    ...[2.05, 2.25, 2.65, 2.75, 3.25, 3.75, 4.25, 4.65, 5.25, 5.75],
  ].sort((a, b) => a - b),
);

/** The stocked drill nearest to a diameter in mm (the larger of two equally near). Throws a RangeError unless it is finite and above 0. */
export function nearestDrill(mm: number): number {
  if (!(Number.isFinite(mm) && mm > 0)) throw new RangeError(`${mm} mm is not a drill diameter`);
  return drillsMm.reduce((best, size) => (Math.abs(size - mm) <= Math.abs(best - mm) + 1e-9 ? size : best));
}
