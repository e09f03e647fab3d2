import type { Sheet } from '@sheetwave/field';
import { type Assembly, type Placement, type PlatePart, placeContour } from '@sheetwave/geometry';
import { metres } from './lengths.ts';
import { sceneOutline } from './outlines.ts';
import type { ScenePart } from './scene-parts.ts';

/**
 * Patches cut from sheet and the strip of a harness, each with its true thickness and its cut-outs. Round holes are drilled for
 * screws, pins and probes that fill them, and are left closed.
 */
export function plateParts(assembly: Assembly): ScenePart[] {
  return assembly.placements.flatMap((placement): ScenePart[] => {
    const part = assembly.parts.find(({ id }) => id === placement.part);
    if (part?.form !== 'plate' || part.role === 'reflector') return [];
    const path = part.role === 'strip' ? 'harness' : `layer[${placement.layer ?? 0}]`;
    return [{ path, sheets: [plateSheet(part, placement)] }];
  });
}

function plateSheet({ id, outline, sheet }: PlatePart, placement: Placement): Sheet {
  const outlineOf = (contour: PlatePart['outline']['outer']) => sceneOutline(placeContour(contour, placement));
  return {
    name: id,
    normal: 'z',
    at: metres(placement.at.z),
    thickness: metres(sheet.thicknessMm),
    outline: outlineOf(outline.outer),
    holes: outline.cutouts.map(outlineOf),
    conductivity: sheet.material.conductivitySm,
  };
}
