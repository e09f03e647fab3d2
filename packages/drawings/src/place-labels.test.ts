import fc from 'fast-check';
import { expect, test } from 'vitest';
import { around, overlaps } from './box.ts';
import { placeLabels } from './place-labels.ts';

const wish = fc.record({
  text: fc.constantFrom('A1', 'B12', 'C256'),
  centre: fc.record({ x: fc.integer({ min: 0, max: 40 }), y: fc.integer({ min: 0, max: 40 }) }),
  radiusMm: fc.constantFrom(0.6, 1.7, 3),
});

test('labels cover neither each other nor what is to be kept clear', () => {
  fc.assert(
    fc.property(fc.array(wish, { maxLength: 30 }), (wishes) => {
      const keepClear = wishes.map((one) => around(one.centre, one.radiusMm));
      const placed = placeLabels(wishes, { sizeMm: 2, keepClear });
      placed.forEach((label, index) => {
        expect(keepClear.some((box) => overlaps(box, label.box))).toBe(false);
        expect(placed.slice(index + 1).some((other) => overlaps(other.box, label.box))).toBe(false);
      });
    }),
  );
});

test('a label with room around it stands up and to the right of its circle', () => {
  const [label] = placeLabels([{ text: 'A1', centre: { x: 0, y: 0 }, radiusMm: 1 }], { sizeMm: 2, keepClear: [] });
  expect(label?.anchor).toBe('start');
  expect(label?.at.x).toBeGreaterThan(1);
  expect(label?.at.y).toBeGreaterThan(0.5);
});
