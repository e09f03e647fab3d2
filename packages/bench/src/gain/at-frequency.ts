import { magnitude, type Response } from '@sheetwave/rf';

/**
 * Magnitude of one S parameter at a frequency, interpolated between the two frequencies beside it; undefined outside the sweep, or where the
 * sweep has no such port. Ports count from 0.
 */
export function magnitudeAt(
  { freqHz, s }: Response,
  hz: number,
  { to, from }: { readonly to: number; readonly from: number },
): number | undefined {
  const sizes = s.map((matrix) => matrix[to]?.[from]).map((value) => value && magnitude(value));
  const after = freqHz.findIndex((f) => f >= hz);
  const [f1, m1] = [freqHz[after], sizes[after]];
  if (f1 === undefined || m1 === undefined) return undefined;
  if (f1 === hz) return m1;
  const [f0, m0] = [freqHz[after - 1], sizes[after - 1]];
  return f0 === undefined || m0 === undefined ? undefined : m0 + ((m1 - m0) * (hz - f0)) / (f1 - f0);
}
