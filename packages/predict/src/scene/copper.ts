import type { Outline, Sheet } from '@sheetwave/field';
import {
  type Contour,
  type CopperPiece,
  contains,
  contourPieces,
  placeContour,
  signedArea,
  unionContours,
} from '@sheetwave/geometry';
import { metres } from './lengths.ts';
import { sceneOutline } from './outlines.ts';

const FOIL_SM = 58e6;

export interface Foil {
  readonly name: string;
  readonly pieces: readonly CopperPiece[];
  readonly atMm: number;
  readonly placement: Parameters<typeof placeContour>[1];
}

/** Etched copper as sheets without thickness: what is dark joined, and what is clear cut out of it. */
export function foilSheets({ name, pieces, atMm, placement }: Foil): Sheet[] {
  const placed = (polarity: CopperPiece['polarity']) =>
    pieces.filter((piece) => piece.polarity === polarity).map((piece) => placeContour(piece.contour, placement));
  const borders = unionContours(placed('dark'));
  const outer = borders.filter((border) => border.kind === 'circle' || signedArea(border) > 0);
  const inner = [...borders.filter((border) => !outer.includes(border)), ...placed('clear')];
  return outer.map(
    (border): Sheet => ({
      name,
      normal: 'z',
      at: metres(atMm),
      thickness: 0,
      outline: sceneOutline(border),
      holes: inner.filter((hole) => contains(border, startOf(hole))).map((hole): Outline => sceneOutline(hole)),
      conductivity: FOIL_SM,
    }),
  );
}

function startOf(contour: Contour) {
  const [first] = contourPieces(contour);
  if (!first) throw new Error('a contour has at least one piece');
  return first.from;
}
