import type { Finding } from '@sheetwave/design';
import type { BoardPart, CopperPiece } from '../assembly.ts';
import { type Bounds, bounds, piecesContain } from '../contour-measure.ts';
import { errorFinding, mm } from '../finding.ts';
import { flattenContour } from '../flatten.ts';
import type { Outline } from '../outline.ts';
import { contourPieces } from '../pieces.ts';
import { contourFindings, spot } from './contour-findings.ts';

/** Copper that is a broken contour, or that reaches outside the board it is etched on. One finding of each kind a side. */
export function copperFindings(board: BoardPart): Finding[] {
  return (['top', 'bottom'] as const).flatMap((side) => {
    const path = `part ${board.id}, ${side} copper`;
    const broken = board.copper[side].flatMap((piece, i) =>
      contourFindings(piece.contour, { path, what: `${piece.purpose} ${i}`, sense: 'any' }),
    );
    if (broken.length > 0) return broken.slice(0, 1);
    return outsideFindings(board.copper[side], board.outline, path);
  });
}

function outsideFindings(pieces: readonly CopperPiece[], outline: Outline, path: string): Finding[] {
  const outer = contourPieces(outline.outer);
  const box = bounds(outline.outer);
  const outside = pieces.flatMap((piece) => {
    if (piece.polarity === 'clear') return [];
    const at = flattenContour(piece.contour, { toleranceMm: 0.02 }).find((p) => !piecesContain(outer, p));
    return at === undefined ? [] : [{ piece, at, byMm: beyond(bounds(piece.contour), box) }];
  });
  const [first] = [...outside].sort((a, b) => b.byMm - a.byMm);
  if (first === undefined) return [];
  const more = outside.length > 1 ? `, and ${outside.length - 1} more pieces` : '';
  return [
    errorFinding('copper-outside', path, {
      value: `${first.piece.purpose} reaches ${mm(Math.max(0, first.byMm))} beyond the board at ${spot(first.at)}${more}`,
      allowed: 'and would be cut off',
      remedy: 'enlarge the board or move what is etched on it',
    }),
  ];
}

function beyond(inner: Bounds, outer: Bounds): number {
  return Math.max(outer.minX - inner.minX, outer.minY - inner.minY, inner.maxX - outer.maxX, inner.maxY - outer.maxY);
}
