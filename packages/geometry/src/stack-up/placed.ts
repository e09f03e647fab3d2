import type { Finding } from '@sheetwave/design';
import type { Point3 } from '../assembly.ts';
import { errorFinding, warningFinding } from '../finding.ts';

/** What is wrong, where on the antenna, and with which parts. */
export interface Placed {
  readonly code: string;
  readonly path: string;
  readonly value: string;
  readonly allowed: string;
  readonly remedy: string;
  readonly at: Point3;
  readonly parts: readonly string[];
}

export const placedError = (found: Placed): Finding => finish(errorFinding, found);
export const placedWarning = (found: Placed): Finding => finish(warningFinding, found);

function finish(make: typeof errorFinding, { code, path, at, parts, ...text }: Placed): Finding {
  const { x, y, z } = at;
  return { ...make(code, path, text), at: { x, y, z }, parts };
}

/** `, and 3 more` for the worst of several. */
export const andMore = (count: number): string => (count > 1 ? `, and ${count - 1} more` : '');
