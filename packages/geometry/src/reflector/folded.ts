import type { Design, Fold, Side } from '@sheetwave/design';
import type { Assembly } from '../assembly.ts';
import type { Contour, Mark, Point } from '../outline.ts';
import { type FoldedFace, faceContour, foldSizes } from './flat-pattern.ts';

/** A folded edge as it stands, in antenna coordinates: a box over `from` to `to`, between two heights. */
export interface FoldedEdge {
  readonly side: Side;
  readonly from: Point;
  readonly to: Point;
  readonly lowMm: number;
  readonly highMm: number;
}

/** The face of a reflector of this size; a board has no folds. */
export function foldedFace(design: Design, size: { readonly widthMm: number; readonly heightMm: number }): FoldedFace {
  const { material, fold, cornerRadiusMm, process } = design.reflector;
  const thicknessMm = material.kind === 'sheet' ? material.sheet.thicknessMm : 0;
  return {
    widthMm: size.widthMm,
    heightMm: size.heightMm,
    cornerRadiusMm,
    thicknessMm,
    // As wide as the sheet is thick on either side of the corner (common practice, no source), and no tighter than can be cut.
    reliefMm: Math.max(thicknessMm, process.smallestRadiusMm),
    fold: material.kind === 'sheet' ? fold : undefined,
  };
}

/** The reflector as it is seen from in front after bending, and its folded edges; undefined for a flat one. */
export function foldedReflector(
  assembly: Assembly,
): { readonly face: Contour; readonly edges: readonly FoldedEdge[] } | undefined {
  const face = foldedFace(assembly.design, assembly.reflector);
  if (!face.fold) return undefined;
  const { fold } = face;
  return { face: faceContour(face), edges: fold.sides.map((side) => foldedEdge(face, fold, side)) };
}

function foldedEdge(face: FoldedFace, fold: Fold, side: Side): FoldedEdge {
  const { thicknessMm: t } = face;
  const [x, y] = [face.widthMm / 2, face.heightMm / 2];
  const ends = (half: number, [low, high]: readonly [Side, Side]): readonly [number, number] => {
    const { setbackMm } = foldSizes(fold, t);
    return [fold.sides.includes(low) ? -half + setbackMm : -half, fold.sides.includes(high) ? half - setbackMm : half];
  };
  const [low, high] = ends(y, ['bottom', 'top']);
  const [left, right] = ends(x, ['left', 'right']);
  const box = {
    left: { from: { x: -x, y: low }, to: { x: -x + t, y: high } },
    right: { from: { x: x - t, y: low }, to: { x, y: high } },
    bottom: { from: { x: left, y: -y }, to: { x: right, y: -y + t } },
    top: { from: { x: left, y: y - t }, to: { x: right, y } },
  }[side];
  const heights =
    fold.direction === 'front' ? { lowMm: -t, highMm: fold.heightMm - t } : { lowMm: -fold.heightMm, highMm: 0 };
  return { side, ...box, ...heights };
}

/** Scribed along the middle of each bend, with words on how to bend. */
export function bendMarks(face: FoldedFace): Mark[] {
  const { fold } = face;
  if (!fold) return [];
  const sizes = foldSizes(fold, face.thicknessMm);
  return fold.sides.flatMap((side): Mark[] => {
    const { from, to } = bendLine(face, side, { outMm: sizes.bendLineMm, stopMm: sizes.setbackMm + face.reliefMm });
    const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
    const inward = { x: middle.x * (1 - 20 / face.widthMm), y: middle.y * (1 - 8 / face.heightMm) };
    return [
      { kind: 'line', purpose: 'bend', from, to },
      { kind: 'text', purpose: 'bend', at: inward, text: bendWords(fold), heightMm: 2 },
    ];
  });
}

/** `up` is toward who looks at the front. */
export function bendWords(fold: Fold): string {
  return `bend 90 deg ${fold.direction === 'front' ? 'up' : 'down'}, inside radius ${Number(fold.insideRadiusMm.toFixed(3))} mm`;
}

/** A line along a side, `outMm` beyond the edge of the face, that stops `stopMm` short of a neighbour that is folded too. */
function bendLine(
  face: FoldedFace,
  side: Side,
  how: { readonly outMm: number; readonly stopMm: number },
): { from: Point; to: Point } {
  const has = (other: Side): boolean => face.fold?.sides.includes(other) ?? false;
  const upright = side === 'left' || side === 'right';
  const [half, reach] = upright ? [face.heightMm / 2, face.widthMm / 2] : [face.widthMm / 2, face.heightMm / 2];
  const [low, high]: readonly [Side, Side] = upright ? ['bottom', 'top'] : ['left', 'right'];
  const [start, end] = [has(low) ? -half + how.stopMm : -half, has(high) ? half - how.stopMm : half];
  const off = (side === 'left' || side === 'bottom' ? -1 : 1) * (reach + how.outMm);
  return upright
    ? { from: { x: off, y: start }, to: { x: off, y: end } }
    : { from: { x: start, y: off }, to: { x: end, y: off } };
}
