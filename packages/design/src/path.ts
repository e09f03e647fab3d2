/** Where a value stands in a design file, as keys and 0-based indices. */
export type KeyPath = readonly (string | number)[];

const BARE_KEY = /^[A-Za-z0-9_-]+$/;

/** `['layer', 0, 'length']` → `layer[0].length`, the path of a finding. */
export function pathText(path: KeyPath): string {
  return path
    .map((step, index) => {
      if (typeof step === 'number') return `[${step}]`;
      const key = BARE_KEY.test(step) ? step : JSON.stringify(step);
      return index === 0 ? key : `.${key}`;
    })
    .join('');
}
