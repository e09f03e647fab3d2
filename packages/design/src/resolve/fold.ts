import type { Fold, Reflector, Side } from '../design.ts';
import type { Context } from './context.ts';

const SIDES: readonly Side[] = ['left', 'right', 'top', 'bottom'];

/**
 * Share of the thickness at which the neutral line of a bend lies, by inside radius over thickness: 0.33 below 1, 0.40 up to 3,
 * 0.5 above (shop handbooks, memory).
 */
function usualKFactor(insideRadiusMm: number, thicknessMm: number): number {
  const ratio = insideRadiusMm / thicknessMm;
  if (ratio < 1) return 0.33;
  return ratio <= 3 ? 0.4 : 0.5;
}

/** The folded edges, or undefined for none or after reporting what is wrong. */
export function resolveFold(context: Context, material: Reflector['material']): Fold | undefined {
  const { fold } = context.file.reflector;
  if (fold === undefined) return undefined;
  if (material.kind === 'board') {
    return context.report.error({
      code: 'needs-sheet',
      path: ['reflector', 'fold'],
      allowed: 'cannot be made in a board, which breaks where it is bent',
      remedy: 'leave it out, or give reflector.sheet in place of reflector.board',
    });
  }
  const { thicknessMm } = material.sheet;
  const insideRadiusMm = fold.inside_radius ?? thicknessMm;
  return {
    sides: fold.sides === 'all' ? SIDES : SIDES.filter((side) => fold.sides.includes(side)),
    heightMm: fold.height,
    insideRadiusMm,
    kFactor: fold.k_factor ?? usualKFactor(insideRadiusMm, thicknessMm),
    direction: fold.direction ?? 'back',
  };
}
