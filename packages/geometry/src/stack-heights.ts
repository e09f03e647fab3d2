import type { Design, Layer } from '@sheetwave/design';
import type { LayerHeight } from './assembly.ts';

/** Height of the spacer under a layer, mm; 0 for a patch etched on the reflector's board. */
export function spacerHeightMm(layer: Layer): number {
  if (!layer.spacer) return 0;
  return layer.spacer.kind === 'stock' ? layer.spacer.spacer.bodyMm : layer.spacer.heightMm;
}

/** Where each layer lies: bodies and spacers stacked outward from the reflector. */
export function stackHeights(design: Design): LayerHeight[] {
  const heights: LayerHeight[] = [];
  let seat = 0;
  for (const layer of design.layers) {
    const height = layerHeight(layer, design, seat + spacerHeightMm(layer));
    heights.push(height);
    seat = height.bodyTopMm;
  }
  return heights;
}

function layerHeight(layer: Layer, design: Design, bodyUndersideMm: number): LayerHeight {
  const { build } = layer;
  switch (build.kind) {
    case 'sheet':
      return metalOnly(bodyUndersideMm, build.sheet.thicknessMm);
    case 'board': {
      const { thicknessMm, copperMm } = build.laminate;
      const bodyTopMm = bodyUndersideMm + thicknessMm + copperMm;
      return build.copperSide === 'inward'
        ? { undersideMm: bodyUndersideMm, topMm: bodyUndersideMm + copperMm, bodyUndersideMm, bodyTopMm }
        : { undersideMm: bodyTopMm - copperMm, topMm: bodyTopMm, bodyUndersideMm, bodyTopMm };
    }
    case 'on-reflector-board': {
      if (design.reflector.material.kind !== 'board')
        throw new Error('a patch etched on the reflector needs a board there');
      const { thicknessMm, copperMm } = design.reflector.material.laminate;
      return metalOnly(thicknessMm, copperMm);
    }
  }
}

function metalOnly(undersideMm: number, thicknessMm: number): LayerHeight {
  const topMm = undersideMm + thicknessMm;
  return { undersideMm, topMm, bodyUndersideMm: undersideMm, bodyTopMm: topMm };
}

/** What the first spacer stands on, above z = 0: the top of a board, or the sheet itself. */
export function reflectorBodyThicknessMm(design: Design): number {
  const { material } = design.reflector;
  return material.kind === 'sheet'
    ? material.sheet.thicknessMm
    : material.laminate.thicknessMm + 2 * material.laminate.copperMm;
}

/** Z of the lowest face of the reflector: a sheet lies below z = 0, of a board only the bottom copper does. */
export function reflectorUndersideMm(design: Design): number {
  const { material } = design.reflector;
  return material.kind === 'sheet' ? -material.sheet.thicknessMm : -material.laminate.copperMm;
}
