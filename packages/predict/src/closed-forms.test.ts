import type { PatchShape } from '@sheetwave/design';
import { describe, expect, test } from 'vitest';
import { closedForms } from './closed-forms.ts';

const square = { kind: 'rectangle', lengthMm: 20, widthMm: 20, corners: undefined, slot: undefined } as const;

describe('which closed form holds', () => {
  test('rectangles and discs have one, without more doubt', () => {
    for (const shape of [square, { kind: 'circle', diameterMm: 24 }] as const)
      expect(closedForms(shape)).toEqual({ hold: true, doubts: [], oneResonance: true });
  });

  test('small corners change nothing, large ones are named, and two cut ones split the resonance', () => {
    // 0.5 % of 400 mm² is 2 mm²: (4 - π) r² reaches it at r = 1.53 mm (computed).
    const round = (radiusMm: number): PatchShape => ({ ...square, corners: { kind: 'round', radiusMm } });
    expect(closedForms(round(1.5))).toMatchObject({ doubts: [] });
    expect(closedForms(round(1.6))).toMatchObject({ doubts: [expect.stringContaining('resonates higher')] });
    const cut = closedForms({ ...square, corners: { kind: 'cut', which: 'rising', sizeMm: 1 } });
    expect(cut).toMatchObject({ oneResonance: false, doubts: [expect.stringContaining('splits its resonance')] });
  });

  test.each<[PatchShape, string]>([
    [
      { ...square, slot: { kind: 'u', edge: 'near', armMm: 9, baseMm: 9, slotMm: 1, offsetMm: 3, endRadiusMm: 0 } },
      'a U slot',
    ],
    [
      { ...square, slot: { kind: 'e', edge: 'near', lengthMm: 9, slotMm: 1, spacingMm: 8, endRadiusMm: 0 } },
      'an E slot',
    ],
    [{ kind: 'ring', outerMm: 20, innerMm: 8 }, 'a ring'],
    [{ kind: 'triangle', sideMm: 20 }, 'a triangle'],
    [{ kind: 'outline', file: 'a.dxf', loops: [], turnDeg: 0, centre: 'origin' }, 'a drawn outline'],
  ])('%j has none, and says so', (shape, words) => {
    expect(closedForms(shape)).toMatchObject({ hold: false, why: expect.stringContaining(words) });
  });
});
