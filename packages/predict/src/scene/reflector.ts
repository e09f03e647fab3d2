import type { Outline, Sheet } from '@sheetwave/field';
import {
  type Assembly,
  type BoardPart,
  type CopperPiece,
  contains,
  type FoldedEdge,
  foldedReflector,
} from '@sheetwave/geometry';
import type { FeedModel } from '../prediction.ts';
import { boardSolid } from './boards.ts';
import { foilSheets } from './copper.ts';
import { metres } from './lengths.ts';
import { rectangle } from './outlines.ts';
import type { ScenePart } from './scene-parts.ts';

const FOIL_SM = 58e6;
const ORIGIN = { at: { x: 0, y: 0, z: 0 }, turnDeg: 0 } as const;

/**
 * The front face of the reflector, without thickness and with square corners, its folded edges, and for a board its dielectric
 * and what is etched on its top.
 */
export function reflectorParts(assembly: Assembly, feed: FeedModel): ScenePart[] {
  const part = assembly.parts.find(({ id }) => id === 'reflector');
  if (part?.form !== 'plate' && part?.form !== 'board') throw new Error('an assembly has a reflector');
  const conductivity = part.form === 'plate' ? part.sheet.material.conductivitySm : FOIL_SM;
  const face: Sheet = {
    name: part.id,
    normal: 'z',
    at: 0,
    thickness: 0,
    outline: faceOutline(assembly),
    conductivity,
  };
  const folds = (foldedReflector(assembly)?.edges ?? []).map((edge) => foldSheet(edge, conductivity));
  return [
    { path: 'reflector', sheets: [face, ...folds] },
    ...(part.form === 'board' ? etchedParts(part, (piece) => isWanted(assembly, feed, piece)) : []),
  ];
}

/** Over the outside of the folds: their bends are sharp here. */
function faceOutline({ reflector: { widthMm, heightMm } }: Assembly): Outline {
  return rectangle([-widthMm / 2, -heightMm / 2], [widthMm / 2, heightMm / 2]);
}

/** A folded edge as a sheet without thickness in its outer face. */
function foldSheet({ side, from, to, lowMm, highMm }: FoldedEdge, conductivity: number): Sheet {
  const upright = side === 'left' || side === 'right';
  const at = side === 'left' ? from.x : side === 'right' ? to.x : side === 'bottom' ? from.y : to.y;
  // What lies on the face's own side of z = 0 begins there.
  const [low, high] = [highMm > 0 ? Math.max(0, lowMm) : lowMm, highMm > 0 ? highMm : Math.min(0, highMm)];
  const outline = upright ? rectangle([from.y, low], [to.y, high]) : rectangle([from.x, low], [to.x, high]);
  return { name: `fold-${side}`, normal: upright ? 'x' : 'y', at: metres(at), thickness: 0, outline, conductivity };
}

/** Dielectric and top copper of a board; the plane on its bottom is the face. */
function etchedParts(part: BoardPart, isWanted: (piece: CopperPiece) => boolean): ScenePart[] {
  const { thicknessMm } = part.laminate;
  const pieces = part.copper.top.filter(isWanted);
  const foil = { name: 'etched', pieces, atMm: thicknessMm, placement: ORIGIN };
  return [
    { path: 'reflector', solids: [boardSolid(part, ORIGIN, [0, thicknessMm])] },
    { path: 'layer[0]', sheets: pieces.length > 0 ? foilSheets(foil) : [] },
  ];
}

/** Lines only belong to the antenna as it is built; of the lands only the coax's lies on a line. */
function isWanted({ design, coaxPoint }: Assembly, feed: FeedModel, { purpose, contour }: CopperPiece): boolean {
  const isLined = feed === 'as-built' && design.harness.kind === 'microstrip';
  if (purpose === 'line') return isLined;
  return purpose !== 'land' || (isLined && contains(contour, coaxPoint));
}
