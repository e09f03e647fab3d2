import type { Hole } from '@sheetwave/geometry';
import { expect, test } from 'vitest';
import { groupHoles } from './hole-groups.ts';

const hole = (x: number, y: number, diameterMm: number, purpose: Hole['purpose'] = 'fixing'): Hole => ({
  purpose,
  centre: { x, y },
  diameterMm,
  plated: false,
});

test('one letter for each diameter from the smallest up, numbers in reading order', () => {
  const groups = groupHoles([hole(5, 0, 3.4), hole(0, -4, 1.3, 'feed'), hole(0, 8, 3.4), hole(-5, 0, 3.4, 'mounting')]);
  expect(groups.map(({ letter, diameterMm, purpose }) => [letter, diameterMm, purpose])).toEqual([
    ['A', 1.3, 'feed pin'],
    ['B', 3.4, 'fixing screw, mounting'],
  ]);
  expect(groups[1]?.holes.map(({ label, hole: { centre } }) => [label, centre.x, centre.y])).toEqual([
    ['B1', 0, 8],
    ['B2', -5, 0],
    ['B3', 5, 0],
  ]);
});

test('plated holes have a letter of their own', () => {
  const plated = { ...hole(1, 1, 3.4), plated: true };
  expect(groupHoles([plated, hole(0, 0, 3.4)]).map((group) => [group.letter, group.plated])).toEqual([
    ['A', false],
    ['B', true],
  ]);
});

test('letters go on after Z', () => {
  const many = Array.from({ length: 28 }, (_, index) => hole(index, 0, 1 + index / 10));
  expect(
    groupHoles(many)
      .map((group) => group.letter)
      .slice(24),
  ).toEqual(['Y', 'Z', 'AA', 'AB']);
});
