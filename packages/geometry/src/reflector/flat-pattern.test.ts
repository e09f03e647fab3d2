import type { Fold, Side } from '@sheetwave/design';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bounds, contains, signedArea } from '../contour-measure.ts';
import { selfCrossings } from '../crossings.ts';
import { bendAllowanceMm, bendDeductionMm, setbackMm } from './bend.ts';
import { type FoldedFace, faceContour, flatPattern, flatPatternAreaMm2, foldSizes } from './flat-pattern.ts';
import { bendMarks } from './folded.ts';

const SIDES: readonly Side[] = ['left', 'right', 'top', 'bottom'];
const fold: Fold = { sides: ['left', 'right'], heightMm: 12, insideRadiusMm: 1, kFactor: 0.4, direction: 'back' };
const face: FoldedFace = {
  widthMm: 94,
  heightMm: 232,
  cornerRadiusMm: 5,
  thicknessMm: 1,
  reliefMm: 1,
  fold,
};

describe('a bend', () => {
  // Worked by hand, R = 1, t = 1, K = 0.4, 90 deg: BA = (pi/2)(1 + 0.4) = 2.19911; setback = 2 tan 45 = 2; BD = 4 - 2.199115 = 1.800885.
  it('takes the sheet that the formulas give', () => {
    const bend = { angleDeg: 90, insideRadiusMm: 1, thicknessMm: 1, kFactor: 0.4 };
    expect(bendAllowanceMm(bend)).toBeCloseTo(2.19911, 5);
    expect(setbackMm(bend)).toBeCloseTo(2, 12);
    expect(bendDeductionMm(bend)).toBeCloseTo(1.80089, 5);
    // R = 0.5, K = 0.33: 2 x 1.5 - (pi/2)(0.83) = 3 - 1.30376.
    expect(bendDeductionMm({ ...bend, insideRadiusMm: 0.5, kFactor: 0.33 })).toBeCloseTo(1.69624, 5);
    // 45 deg, R = 2, t = 1.5, K = 0.4: 2 x 3.5 x 0.414214 - 0.785398 x 2.6 = 2.899495 - 2.042035.
    expect(bendDeductionMm({ angleDeg: 45, insideRadiusMm: 2, thicknessMm: 1.5, kFactor: 0.4 })).toBeCloseTo(
      0.85746,
      5,
    );
  });

  it('conserves the neutral line: straight parts and arc make up the flat length', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.double({ min: 0.2, max: 4, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        fc.double({ min: 1, max: 150, noNaN: true }),
        (insideRadiusMm, thicknessMm, kFactor, angleDeg) => {
          const bend = { angleDeg, insideRadiusMm, thicknessMm, kFactor };
          const [a, b] = [400, 300];
          const straight = a - setbackMm(bend) + (b - setbackMm(bend));
          const arc = ((angleDeg * Math.PI) / 180) * (insideRadiusMm + kFactor * thicknessMm);
          expect(a + b - bendDeductionMm(bend)).toBeCloseTo(straight + arc, 8);
        },
      ),
      { seed: 20260517 },
    );
  });
});

describe('the flat pattern', () => {
  it('of two folded edges is as long as worked by hand', () => {
    // 94 + 2 (12 - 1.800885) = 114.39823; the height stays.
    const box = bounds(flatPattern(face));
    expect(box.maxX - box.minX).toBeCloseTo(114.39823, 5);
    expect(box.maxY - box.minY).toBeCloseTo(232, 9);
  });

  it('of four folded edges stops both edges where the other’s bend begins and relieves the corner', () => {
    const all = { ...face, fold: { ...fold, sides: SIDES } };
    const contour = flatPattern(all);
    const box = bounds(contour);
    expect(box.maxX - box.minX).toBeCloseTo(94 + 20.39823, 5);
    expect(box.maxY - box.minY).toBeCloseTo(232 + 20.39823, 5);
    // The tangent lines of the upper right corner meet at (47 - 2, 116 - 2); the relief of 1 mm lies round that point.
    const corner = { x: 45, y: 114 };
    expect(contains(contour, corner)).toBe(false);
    expect(contains(contour, { x: 45 - 0.75, y: 114 - 0.75 })).toBe(true);
    expect(contains(contour, { x: 45 - 0.65, y: 114 - 0.65 })).toBe(false);
    expect(contains(contour, { x: 45 - 0.75, y: 114 - 0.6 - 0.75 })).toBe(true);
    expect(contains(contour, { x: 50, y: 113.9 })).toBe(true);
    expect(contains(contour, { x: 50, y: 114.1 })).toBe(false);
  });

  it('puts the bend line in the middle of the bend', () => {
    // Face edge 47, less setback 2, plus half of 2.19911: 46.09956.
    const lines = bendMarks(face).flatMap((mark) => (mark.kind === 'line' ? [mark] : []));
    expect(lines.map(({ from }) => from.x)).toEqual([expect.closeTo(-46.09956, 5), expect.closeTo(46.09956, 5)]);
    expect(lines[1]).toMatchObject({ from: { y: -116 }, to: { y: 116 } });
  });

  it('is simple, counter-clockwise, and has the area worked out from its sizes, whichever edges are folded', () => {
    const faces = fc
      .record({
        sides: fc.subarray([...SIDES], { minLength: 1 }),
        heightMm: fc.double({ min: 8, max: 40, noNaN: true }),
        insideRadiusMm: fc.double({ min: 0, max: 3, noNaN: true }),
        kFactor: fc.double({ min: 0.2, max: 0.5, noNaN: true }),
        thicknessMm: fc.double({ min: 0.3, max: 2, noNaN: true }),
        cornerRadiusMm: fc.double({ min: 0, max: 8, noNaN: true }),
        reliefMm: fc.double({ min: 0.3, max: 2, noNaN: true }),
      })
      .map(
        ({ thicknessMm, cornerRadiusMm, reliefMm, ...rest }): FoldedFace => ({
          widthMm: 90,
          heightMm: 120,
          thicknessMm,
          cornerRadiusMm,
          reliefMm,
          fold: { ...rest, direction: 'front' },
        }),
      );
    fc.assert(
      fc.property(faces, (one) => {
        const contour = flatPattern(one);
        expect(selfCrossings(contour)).toEqual([]);
        expect(signedArea(contour)).toBeCloseTo(flatPatternAreaMm2(one), 6);
        const box = bounds(contour);
        const { beyondMm } = foldSizes(one.fold as Fold, one.thicknessMm);
        const count = (sides: readonly Side[]) => sides.filter((side) => one.fold?.sides.includes(side)).length;
        expect(box.maxX - box.minX).toBeCloseTo(90 + count(['left', 'right']) * beyondMm, 9);
        expect(box.maxY - box.minY).toBeCloseTo(120 + count(['top', 'bottom']) * beyondMm, 9);
      }),
      { seed: 20260517 },
    );
  });

  it('without a fold is the face', () => {
    const flat = { ...face, fold: undefined };
    expect(signedArea(flatPattern(flat))).toBeCloseTo(94 * 232 - (4 - Math.PI) * 25, 9);
    expect(flatPattern(flat)).toEqual(faceContour(flat));
  });
});
