import type { Design, Finding, PatchShape } from '@sheetwave/design';
import type { Assembly, BoardPart, CopperPiece, PlatePart } from '../assembly.ts';
import { outlineArea, signedArea } from '../contour-measure.ts';
import { errorFinding } from '../finding.ts';
import type { Hole } from '../outline.ts';
import { flatPatternAreaMm2 } from '../reflector/flat-pattern.ts';
import { foldedFace } from '../reflector/folded.ts';
import { partLayer } from './part-layer.ts';
import { boardArea, cutoutsArea, outsideArea } from './shape-area.ts';

/** Parts whose area is not what the sizes in the design give, less holes. */
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
  const area = layer.build.kind === 'board' ? boardArea(layer.shape, layer.build.borderMm) : metalArea(layer.shape);
  return area === undefined ? undefined : area - drilledArea(part.outline.holes);
}

function metalArea(shape: PatchShape): number | undefined {
  const [outside, cut] = [outsideArea(shape), cutoutsArea(shape)];
  return outside === undefined || cut === undefined ? undefined : outside - cut;
}

/** Each etched patch has the area of its shape; an inset one lacks its slots and the line between them. What is cleared is its cut-outs. */
function etchedFindings(assembly: Assembly, part: BoardPart): Finding[] {
  const layer = part.role === 'patch' ? partLayer(assembly, part.id) : assembly.design.layers[0];
  if (layer === undefined) return [];
  const sides = [...(part.role === 'patch' ? part.copper.bottom : []), ...part.copper.top];
  const areasOf = (purpose: CopperPiece['purpose']): readonly number[] =>
    sides.filter((piece) => piece.purpose === purpose).map((piece) => Math.abs(signedArea(piece.contour)));
  const outside = outsideArea(layer.shape);
  if (outside === undefined) return [];
  const wanted = outside - slots(assembly.design, part);
  const patches = areasOf('patch');
  const cleared = areasOf('clearance').reduce((sum, area) => sum + area, 0);
  const wrong = [
    ...patches.flatMap((area) => differs(`${part.id}, etched patch`, area, wanted)),
    ...differs(`${part.id}, openings of etched patches`, cleared, patches.length * (cutoutsArea(layer.shape) ?? 0)),
  ];
  return wrong.slice(0, 1);
}

function slots(design: Design, part: BoardPart): number {
  if (part.role !== 'reflector' || design.feed.kind !== 'inset' || design.harness.kind !== 'microstrip') return 0;
  const outermost = design.harness.levels.at(-1);
  const section = outermost?.section?.at === 'outer' ? outermost.section.widthMm : undefined;
  const line = section ?? outermost?.widthMm ?? design.harness.lead?.widthMm ?? 0;
  return design.feed.depthMm * (line + 2 * design.feed.gapMm);
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
