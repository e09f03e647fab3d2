import { expect } from 'vitest';
import type { Design } from '../src/design.ts';
import { readDesign } from '../src/read-design.ts';

/** The design of a text that reads without findings. */
export function mustRead(text: string): Design {
  const { design, findings } = readDesign(text);
  expect(findings).toEqual([]);
  if (design === undefined) throw new Error('no design and no findings');
  return design;
}
