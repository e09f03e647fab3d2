import { handOfPatch, type PatchCorners, type PatchShape } from '@sheetwave/design';

/** Which closed form holds for a driven patch, or that none does. */
export type ClosedForms =
  /** `doubts` say what of the shape the form does not know; `oneResonance` is false where the patch has two and the form knows one. */
  | { readonly hold: true; readonly doubts: readonly string[]; readonly oneResonance: boolean }
  | { readonly hold: false; readonly why: string };

/** Corners that take away less of the patch than this change no number beyond its error (computed: area of both over that of the patch). */
const SMALL_SHARE = 0.005;

/**
 * What can be calculated of a shape: rectangles and discs have closed forms (Hammerstad, Balanis; see rf). Slots, rings, triangles and
 * drawn outlines have none that holds over a thick layer of air: published ones are for thin boards, and each slot adds modes of its own.
 */
export function closedForms(shape: PatchShape): ClosedForms {
  switch (shape.kind) {
    case 'circle':
      return { hold: true, doubts: [], oneResonance: true };
    case 'rectangle':
      if (shape.slot !== undefined) return none(`a patch with ${shape.slot.kind === 'u' ? 'a U' : 'an E'} slot`);
      return {
        hold: true,
        doubts: cornerDoubts(shape.corners, shape.lengthMm * shape.widthMm),
        oneResonance: handOfPatch(shape) === undefined,
      };
    case 'ring':
      return none('a ring');
    case 'triangle':
      return none('a triangle');
    case 'outline':
      return none('a drawn outline');
  }
}

function none(what: string): ClosedForms {
  return {
    hold: false,
    why: `No closed form holds for ${what}: resonance, match, bandwidth and gain need a field solution or a sweep. Cut the first one with metal to spare and trim it.`,
  };
}

function cornerDoubts(corners: PatchCorners | undefined, areaMm2: number): readonly string[] {
  if (corners === undefined) return [];
  if (corners.kind === 'cut' && corners.which !== 'all')
    return [
      'It is for the patch with whole corners: the cut splits its resonance in two, one lower and one higher, and the feed sees both.',
    ];
  const gone = corners.kind === 'round' ? (4 - Math.PI) * corners.radiusMm ** 2 : 2 * corners.sizeMm ** 2;
  if (gone < SMALL_SHARE * areaMm2) return [];
  return ['It is for the patch with whole corners: without them it resonates higher, and no closed form says how far.'];
}
