import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { renderFinding } from '@sheetwave/design';
import { checkDesign } from '@sheetwave/pack';
import { expect, it } from 'vitest';

// What `npm run bench` measures must be designs that can be made. Nothing is timed here.

interface Kinds {
  readonly KINDS: Readonly<Record<string, { readonly design: (side: number) => string }>>;
}

const file = join(import.meta.dirname, '..', '..', 'scripts', 'bench', 'designs.mjs');
const { KINDS } = (await import(pathToFileURL(file).href)) as Kinds;
const cases = Object.keys(KINDS).flatMap((kind) => [1, 2, 4, 8].map((side) => [kind, side] as const));

it.each(cases)('the array of kind %s with %i elements a side can be made', (kind, side) => {
  const { findings } = checkDesign({ designText: KINDS[kind]?.design(side) ?? '' });
  const errors = findings.filter(({ severity }) => severity === 'error');
  expect(errors.map((finding) => renderFinding(finding))).toEqual([]);
});
