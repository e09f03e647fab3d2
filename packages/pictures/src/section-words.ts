import { plain } from '@sheetwave/drawings';
import { type Assembly, reflectorUndersideMm, shapeExtent } from '@sheetwave/geometry';
import type { Callout } from './callouts.ts';
import type { SectionPlane } from './section-plane.ts';

/** Places along the cut where gaps are dimensioned: inside the shortest patch, off the fixing. */
export function gapPlaceMm(assembly: Assembly): number {
  const lengths = assembly.design.layers.map(({ shape }) => shapeExtent(shape, 'vertical').heightMm);
  return Math.min(...lengths) * 0.36;
}

interface Gap {
  readonly fromMm: number;
  readonly toMm: number;
}

/** Air between one sheet and the next, from the reflector outward. */
export function gapsOf(assembly: Assembly): readonly Gap[] {
  const base = reflectorUndersideMm(assembly.design) + assembly.reflector.thicknessMm;
  return assembly.layerHeights.flatMap((height, layer) => {
    const fromMm = layer === 0 ? base : (assembly.layerHeights[layer - 1]?.bodyTopMm ?? 0);
    return height.bodyUndersideMm - fromMm > 0.01 ? [{ fromMm, toMm: height.bodyUndersideMm }] : [];
  });
}

/** What the section names on its right: the reflector, each layer, each gap. */
export function calloutsOf(
  assembly: Assembly,
  view: { readonly plane: SectionPlane; readonly scale: number },
): readonly Callout[] {
  const { scale, plane } = view;
  const { design } = assembly;
  const under = reflectorUndersideMm(design);
  const reflector: Callout = {
    id: 'reflector',
    anchor: { x: (plane.right - 1.5) * scale, y: (under + assembly.reflector.thicknessMm / 2) * scale },
    title: 'reflector',
    lines: [`${plain(assembly.reflector.thicknessMm)} mm`],
  };
  const layers = design.layers.flatMap((layer, index): readonly Callout[] => {
    const height = assembly.layerHeights[index];
    if (height === undefined) return [];
    const length = shapeExtent(layer.shape, 'vertical').heightMm;
    const y = ((height.bodyUndersideMm + height.bodyTopMm) / 2) * scale;
    const thick = plain(height.bodyTopMm - height.bodyUndersideMm, 3);
    return [
      {
        id: `layer-${index}`,
        anchor: { x: (length / 2 - 0.8) * scale, y },
        title: `${layer.name} patch`,
        lines: [`${thick} mm thick, ${plain(length)} mm along the cut`],
      },
    ];
  });
  const gaps = gapsOf(assembly).map(
    (gap, index): Callout => ({
      id: `gap-${index}`,
      anchor: { x: gapPlaceMm(assembly) * scale, y: ((gap.fromMm + gap.toMm) / 2) * scale },
      title: `gap ${plain(gap.toMm - gap.fromMm)} mm`,
      lines: [],
    }),
  );
  return [reflector, ...layers, ...gaps];
}
