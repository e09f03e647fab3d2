import { ticks } from 'd3-array';

/** Where an axis has its marks, and what stands beside them. Both lists have one length. */
export interface Ticks {
  readonly values: readonly number[];
  readonly texts: readonly string[];
}

/**
 * Marks at round numbers (1, 2 or 5 times a power of ten) within a span, about `count` of them, ends included where they are
 * round. All texts have the same decimals, as few as tell the marks apart. Throws RangeError for a span that is empty or not finite.
 */
export function niceTicks(from: number, to: number, count: number): Ticks {
  if (!(Number.isFinite(from) && Number.isFinite(to) && from < to))
    throw new RangeError(`an axis needs a span from a lower to a higher finite number, not ${from} to ${to}.`);
  if (!(count >= 1)) throw new RangeError(`count must be 1 or above, not ${count}.`);
  const values = ticks(from, to, count);
  return { values, texts: tickTexts(values) };
}

/** Numbers as an axis shows them: equal decimals that tell neighbours apart, a true minus sign. */
export function tickTexts(values: readonly number[]): readonly string[] {
  const steps = values.slice(1).map((value, index) => Math.abs(value - (values[index] ?? value)));
  const nearest = Math.min(...steps.filter((step) => step > 0));
  const decimals = Math.max(0, ...values.map((value) => decimalsOf(value, nearest)));
  return values.map((value) => signed(value.toFixed(decimals)));
}

/** The least decimals that show a number to within a millionth of itself, and to within a hundredth of the way to its neighbour. */
function decimalsOf(value: number, step: number): number {
  const within = Math.min(Math.abs(value) * 1e-6, step / 100);
  for (let decimals = 0; decimals < 12; decimals += 1)
    if (Math.abs(Number(value.toFixed(decimals)) - value) <= within) return decimals;
  return 12;
}

const signed = (text: string): string => (Number(text) === 0 ? text.replace('-', '') : text.replace('-', '\u2212'));

/** The nearest multiple of `step` at or below a value, and at or above it. */
export const stepDown = (value: number, step: number): number => Math.floor(value / step + 1e-9) * step;
export const stepUp = (value: number, step: number): number => Math.ceil(value / step - 1e-9) * step;
