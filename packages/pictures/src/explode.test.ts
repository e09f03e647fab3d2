import { readFileSync } from 'node:fs';
import { readDesign } from '@sheetwave/design';
import { assemble } from '@sheetwave/geometry';
import { expect, test } from 'vitest';
import { columnKey, explode } from './explode.ts';
import { show } from './shown.ts';
import { piecesOf, tiersOf } from './tiers.ts';

/** Four stacks of three patches with rods. */
const EXAMPLE = new URL('../../../examples/brass-2x2-5g8/design.toml', import.meta.url);
const { design } = readDesign(readFileSync(EXAMPLE, 'utf8'));
const assembly = design && assemble(design).assembly;
if (assembly === undefined) throw new Error('the example is sound');
const everywhere = { minX: -1e3, minY: -1e3, maxX: 1e3, maxY: 1e3 };
const tiers = tiersOf(assembly, piecesOf(assembly));
const lifted = explode(
  tiers.map(({ name, pieces }) => ({
    name,
    shown: pieces.flatMap((piece) => show(assembly, piece, everywhere) ?? []),
  })),
  { tierMm: 10, pieceMm: 3, ceiling: () => -5 },
);

test('every piece is shown once', () => {
  expect(lifted).toHaveLength(assembly.placements.length);
});

test('tiers run from the back to the front', () => {
  expect(tiers.map(({ name }) => name)).toEqual([
    ...['below', 'reflector', 'harness'],
    ...['spacer', 'patch', 'spacer', 'patch', 'spacer', 'patch'],
    'front',
  ]);
});

test('the reflector stays where it is', () => {
  expect(lifted.find(({ tier }) => tier === 'reflector')?.liftMm).toBe(0);
});

test('pieces on one axis are clear of each other, in their order', () => {
  const columns = new Map<string, { from: number; to: number; home: number }[]>();
  for (const { shown, liftMm } of lifted.filter((one) => one.tier !== 'harness')) {
    const key = columnKey(shown.centre);
    const piece = { from: shown.fromMm + liftMm, to: shown.toMm + liftMm, home: shown.piece.placement.at.z };
    columns.set(key, [...(columns.get(key) ?? []), piece]);
  }
  for (const column of columns.values()) {
    const sorted = column.sort((a, b) => a.from - b.from);
    sorted.slice(1).forEach((piece, index) => {
      expect(piece.from).toBeGreaterThan(sorted[index]?.to ?? Number.NaN);
    });
  }
});
