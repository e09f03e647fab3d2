import type { Design, Finding, PatchShape } from '@sheetwave/design';
import type { Assembly, BoardPart, PlatePart } from '../assembly.ts';
import { outlineArea, signedArea } from '../contour-measure.ts';
import { errorFinding } from '../finding.ts';
import type { Hole } from '../outline.ts';
import { flatPatternAreaMm2 } from '../reflector/flat-pattern.ts';
import { foldedFace } from '../reflector/folded.ts';
import { partLayer } from './part-layer.ts';

/** Parts whose area is not what the sizes in the design give: πd²/4, length times width, less holes. */
export function areaFindings(assembly: Assembly): Finding[] {
  return assembly.parts.flatMap((part) => {
    if (part.form !== 'plate' && part.form !== 'board') return [];
    const wanted = part.role === 'reflector' ? reflectorArea(assembly, part) : patchArea(assembly, part);
    const copper = part.form === 'board' ? etchedFindings(assembly, part) : [];
    return wanted === undefined ? copper : [...differs(part.id, outlineArea(part.outline), wanted), ...copper];
  });
}

function reflectorArea({ reflector, design }: Assembly, part: PlatePart | BoardPart): number {
  return flatPatternAreaMm2(foldedFace(design, reflector)) - drilledArea(part.outline.holes);
}

function patchArea(assembly: Assembly, part: PlatePart | BoardPart): number | undefined {
  const layer = partLayer(assembly, part.id);
  if (part.role !== 'patch' || layer === undefined) return undefined;
  const border = layer.build.kind === 'board' ? layer.build.borderMm : 0;
  return shapeArea(grown(layer.shape, border)) - drilledArea(part.outline.holes);
}

/** Each etched patch has the area of its shape; an inset one lacks its slots and the line between them. */
function etchedFindings(assembly: Assembly, part: BoardPart): Finding[] {
  const layer = part.role === 'patch' ? partLayer(assembly, part.id) : assembly.design.layers[0];
  const patches = [...part.copper.top, ...part.copper.bottom].filter((piece) => piece.purpose === 'patch');
  const wrong = patches.flatMap((piece) => {
    if (layer === undefined) return [];
    return differs(
      `${part.id}, etched patch`,
      Math.abs(signedArea(piece.contour)),
      shapeArea(layer.shape) - slots(assembly.design, part),
    );
  });
  return wrong.slice(0, 1);
}

function slots(design: Design, part: BoardPart): number {
  if (part.role !== 'reflector' || design.feed.kind !== 'inset' || design.harness.kind !== 'microstrip') return 0;
  const outermost = design.harness.levels.at(-1);
  const section = outermost?.section?.at === 'outer' ? outermost.section.widthMm : undefined;
  const line = section ?? outermost?.widthMm ?? design.harness.lead?.widthMm ?? 0;
  return design.feed.depthMm * (line + 2 * design.feed.gapMm);
}

function grown(shape: PatchShape, border: number): PatchShape {
  if (shape.kind === 'circle') return { kind: 'circle', diameterMm: shape.diameterMm + 2 * border };
  return { kind: 'rectangle', lengthMm: shape.lengthMm + 2 * border, widthMm: shape.widthMm + 2 * border };
}

function shapeArea(shape: PatchShape): number {
  return shape.kind === 'circle' ? (Math.PI * shape.diameterMm ** 2) / 4 : shape.lengthMm * shape.widthMm;
}

function drilledArea(holes: readonly Hole[]): number {
  return holes.reduce((total, hole) => total + (Math.PI * hole.diameterMm ** 2) / 4, 0);
}

function differs(part: string, areaMm2: number, wantedMm2: number): Finding[] {
  if (Math.abs(areaMm2 - wantedMm2) <= 1e-6 * Math.max(1, wantedMm2)) return [];
  return [
    errorFinding('area-differs', `part ${part}`, {
      value: `${areaMm2} mm²`,
      allowed: `instead of the ${wantedMm2} mm² that the sizes in the design give`,
      remedy: 'report this: the outline does not follow the design',
    }),
  ];
}
