/** A span that must hold exactly one crossing. */
export interface Bracket {
  readonly low: number;
  readonly high: number;
}

/**
 * Where a continuous function crosses 0 inside the bracket, by halving until the bracket is at the resolution of a double.
 * Throws RangeError when both ends have the same sign.
 */
export function findCrossing(f: (x: number) => number, { low, high }: Bracket): number {
  let left = low;
  let right = high;
  const rising = f(left) < 0;
  if (rising === f(right) < 0) throw new RangeError(`No crossing between ${low} and ${high}.`);
  for (let step = 0; step < 200; step += 1) {
    const middle = (left + right) / 2;
    if (middle === left || middle === right) break;
    if (f(middle) < 0 === rising) left = middle;
    else right = middle;
  }
  return (left + right) / 2;
}

/** Slope of a smooth function by central differences; `step` is the half-span in units of x. */
export const slopeAt = (f: (x: number) => number, x: number, step: number): number =>
  (f(x + step) - f(x - step)) / (2 * step);
