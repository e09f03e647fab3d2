import { expect, test } from 'vitest';
import { stacked } from '../testing/design.ts';
import { columnKey, explode } from './explode.ts';
import { show } from './shown.ts';
import { piecesOf, tiersOf } from './tiers.ts';

const assembly = stacked(2, 2);
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
