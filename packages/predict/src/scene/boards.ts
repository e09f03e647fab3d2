import type { Laminate } from '@sheetwave/design';
import type { Solid, SolidShape } from '@sheetwave/field';
import { type Assembly, type BoardPart, bounds, type Contour, type Placement, placeContour } from '@sheetwave/geometry';
import { foilSheets } from './copper.ts';
import { metres, planePoint } from './lengths.ts';
import type { SceneLevel } from './levels.ts';
import type { ScenePart } from './scene-parts.ts';

/** Patches on boards of their own: the dielectric with its loss, and the copper on its face. */
export function boardParts(assembly: Assembly, levels: readonly SceneLevel[]): ScenePart[] {
  return assembly.placements.flatMap((placement): ScenePart[] => {
    const part = assembly.parts.find(({ id }) => id === placement.part);
    const level = levels[placement.layer ?? -1];
    if (part?.form !== 'board' || part.role !== 'patch' || !level) return [];
    const pieces = part.copper.top.length > 0 ? part.copper.top : part.copper.bottom;
    return [
      {
        path: `layer[${placement.layer}]`,
        sheets: foilSheets({ name: part.id, pieces, atMm: level.metalMm, placement }),
        solids: [boardSolid(part, placement, [level.bodyMm, level.bodyTopMm])],
      },
    ];
  });
}

/** The dielectric of a board between two heights, mm: a cylinder for a round board, else the box around it. */
export function boardSolid(
  { id, outline, laminate }: Pick<BoardPart, 'id' | 'outline' | 'laminate'>,
  placement: Pick<Placement, 'at' | 'turnDeg'>,
  heightsMm: readonly [number, number],
): Solid {
  return { name: id, shape: bodyShape(placeContour(outline.outer, placement), heightsMm), ...dielectricOf(laminate) };
}

const dielectricOf = ({ permittivity, lossTangent }: Laminate) => ({ permittivity, lossTangent });

function bodyShape(contour: Contour, [fromMm, toMm]: readonly [number, number]): SolidShape {
  const [from, to] = [metres(fromMm), metres(toMm)];
  if (contour.kind === 'circle')
    return {
      kind: 'cylinder',
      axis: 'z',
      centre: planePoint(contour.centre),
      radius: metres(contour.radiusMm),
      from,
      to,
    };
  const { minX, minY, maxX, maxY } = bounds(contour);
  return { kind: 'box', low: [metres(minX), metres(minY), from], high: [metres(maxX), metres(maxY), to] };
}
