import type { Finding, Process } from '@sheetwave/design';
import { mm, warningFinding } from '../finding.ts';
import type { Outline, Point } from '../outline.ts';
import { contourPieces, type Piece } from '../pieces.ts';
import { turnAt } from '../turn-at.ts';
import { spot } from './contour-findings.ts';

/**
 * Inside corners tighter than the process can cut. Material lies to the left of every contour of an outline, so inside corners turn right:
 * sharp ones count as radius 0, unless the process relieves them.
 */
export function cornerFindings(outline: Outline, path: string, process: Process): Finding[] {
  const tight = [outline.outer, ...outline.cutouts]
    .flatMap((contour) => insideRadii(contourPieces(contour)))
    .filter((corner) => corner.radiusMm < process.smallestRadiusMm - 1e-6)
    .filter((corner) => corner.radiusMm > 0 || process.insideCorners !== 'dog-bone');
  const [first] = [...tight].sort((a, b) => a.radiusMm - b.radiusMm);
  if (first === undefined) return [];
  const more = tight.length > 1 ? `, and ${tight.length - 1} more` : '';
  if (process.insideCorners === 'round') return [roundedNote(path, process, tight)];
  return [
    warningFinding('tight-corner', path, {
      value: `inside radius ${mm(first.radiusMm)} at ${spot(first.at)}${more}`,
      allowed: `at least ${mm(process.smallestRadiusMm)} for ${process.label}`,
      remedy: 'expect that radius in the corner, file it out, or choose a process that cuts tighter',
    }),
  ];
}

/** The cut files already show the radius, so there is nothing to decide, only to know. */
function roundedNote(path: string, process: Process, corners: readonly { at: Point }[]): Finding {
  const where = corners[0] ? `, such as at ${spot(corners[0].at)}` : '';
  return {
    code: 'corner-rounded',
    severity: 'note',
    path,
    value: `inside corners (${corners.length}${where})`,
    allowed: `come out with a radius of ${mm(process.smallestRadiusMm)}, the tightest that ${process.label} gives`,
    remedy: 'cut files show it so',
  };
}

function insideRadii(pieces: readonly Piece[]): { at: Point; radiusMm: number }[] {
  return pieces.flatMap((piece, i) => {
    const next = pieces[(i + 1) % pieces.length] ?? piece;
    const arc = piece.kind === 'arc' && piece.sense === 'cw' ? [{ at: piece.from, radiusMm: piece.radiusMm }] : [];
    return turnAt(piece, next) < -1e-3 ? [...arc, { at: piece.to, radiusMm: 0 }] : arc;
  });
}
