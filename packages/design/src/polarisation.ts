import type { Hand, PatchCorners, PatchShape } from './design.ts';

/**
 * Hand of the wave that a nearly square patch with two opposite corners cut sends forward, fed on its vertical centre line below the
 * centre and seen from in front; undefined for corners that favour neither diagonal.
 *
 * `rising` (lower left and upper right cut) gives right-hand, `falling` left-hand. Derivation from the two modes of the square:
 * 1. The modes along x and along y have one frequency, so they may be taken along the diagonals d1 = (1, 1) and d2 = (-1, 1).
 *    Mode d1 has its field, sin(pi x / L) + sin(pi y / L), largest at the ends of d1 and none at the ends of d2.
 * 2. Cutting the ends of d1 takes away a region of strong electric and weak magnetic field behind an open (magnetic) wall, which
 *    raises the frequency of d1 (cavity perturbation: Pozar, Microwave Engineering, 6.7, in its dual form; memory). d2 keeps its own.
 * 3. The feed on y drives both alike: y = (d1 + d2) / 2. Between the two frequencies d1 is driven below its resonance and leads by
 *    45 degrees, d2 above its own and lags by 45 degrees.
 * 4. So the field points along d1 first and along d2 a quarter period later: counter-clockwise seen from in front, which is
 *    right-hand for a wave that comes toward the observer (IEEE Std 145; memory).
 * Turning the antenna turns feed and corners together and changes nothing. Common practice agrees that the cut must be matched to the
 * quality factor of the patch; how much to cut is not in this rule.
 */
function handOfCut(corners: PatchCorners | undefined): Hand | undefined {
  if (corners?.kind !== 'cut' || corners.which === 'all') return undefined;
  return corners.which === 'rising' ? 'right-hand' : 'left-hand';
}

/** The same of a whole patch. */
export function handOfPatch(shape: PatchShape): Hand | undefined {
  return shape.kind === 'rectangle' ? handOfCut(shape.corners) : undefined;
}

/** The pair of corners to cut for a hand: the other way round of `handOfCut`. */
export function cutForHand(hand: Hand): 'rising' | 'falling' {
  return hand === 'right-hand' ? 'rising' : 'falling';
}
