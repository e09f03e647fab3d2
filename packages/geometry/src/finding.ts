import type { Finding } from '@sheetwave/design';

/** An error about the design that only shows once the parts are worked out. */
export function errorFinding(
  code: string,
  path: string,
  text: { value: string; allowed: string; remedy: string },
): Finding {
  return { code, severity: 'error', path, ...text };
}

/** Something that can be built but that the builder should know. */
export function warningFinding(
  code: string,
  path: string,
  text: { value: string; allowed: string; remedy: string },
): Finding {
  return { code, severity: 'warning', path, ...text };
}

/** Millimetres for a message: at most three decimals, no trailing zeros. */
export function mm(value: number): string {
  return `${Number(value.toFixed(3))} mm`;
}
