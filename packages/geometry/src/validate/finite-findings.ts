import type { Finding } from '@sheetwave/design';
import type { Assembly } from '../assembly.ts';
import { errorFinding } from '../finding.ts';

/** The first numbers that are not finite, by where they stand; nothing else can be judged beside them. */
export function finiteFindings(assembly: Assembly): Finding[] {
  const { design: _, ...made } = assembly;
  const bad: string[] = [];
  search(made, '', bad);
  return bad.slice(0, 5).map((path) =>
    errorFinding('not-finite', path, {
      value: 'a size that is no finite number',
      allowed: 'cannot be made',
      remedy: 'look for a zero or missing size in the design',
    }),
  );
}

function search(value: unknown, path: string, bad: string[]): void {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) bad.push(path);
  } else if (Array.isArray(value)) {
    for (const [i, item] of value.entries()) search(item, `${path}[${i}]`, bad);
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, item] of Object.entries(value)) search(item, path === '' ? key : `${path}.${key}`, bad);
  }
}
