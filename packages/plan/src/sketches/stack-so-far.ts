import { arrowHead, grow, plain, union } from '@sheetwave/drawings';
import { type Assembly, type Bounds, reflectorUndersideMm, shapeExtent, spacerHeightMm } from '@sheetwave/geometry';
import type { PlanFigure } from '../document.ts';
import { boxOf, drawPointers, LINE, METAL, OTHER_METAL, PLASTIC, type Pointer, pointersBox } from './sketch.ts';

const WIDE_MM = 70;

/** One stack from the side up to a layer, the new layer heavy. */
export function stackSketch(assembly: Assembly, upTo: number): PlanFigure {
  const { layers, lattice } = assembly.design;
  const widest = Math.max(...layers.map(({ shape }) => shapeExtent(shape, lattice.orientation).widthMm));
  const scale = Math.min(3, WIDE_MM / (widest * 1.3));
  const half = (widest / 2) * 1.3 * scale;
  const base = reflectorUndersideMm(assembly.design);
  const top = base + assembly.reflector.thicknessMm;
  const boxes = layers.slice(0, upTo + 1).map((_, layer) => layerBoxes(assembly, layer, scale));
  const newest = boxes.at(-1);
  const name = layers[upTo]?.name ?? '';
  const height = assembly.layerHeights[upTo]?.bodyUndersideMm ?? 0;
  const pointers: readonly Pointer[] =
    newest === undefined
      ? []
      : [
          {
            words: `${name} patch, underside ${plain(height)} mm over the reflector`,
            at: { x: half + 6, y: newest.sheet.minY + 3 },
            to: { x: newest.sheet.maxX, y: (newest.sheet.minY + newest.sheet.maxY) / 2 },
          },
          { words: 'reflector, front up', at: { x: half + 6, y: base * scale - 1 }, to: { x: half, y: base * scale } },
        ];
  const box = boxOf(-half, base * scale - 4, half, (newest?.sheet.maxY ?? 0) + 9);
  return {
    id: `sketch-layer-${upTo + 1}`,
    caption: `One stack from the side, up to the ${name} patch.`,
    alt: `Side view of one stack with ${upTo + 1} of ${layers.length} layers; the ${name} patch is on top, ${plain(height)} millimetres over the reflector.`,
    box: grow(union(box, pointersBox(pointers)), 1),
    toScale: false,
    draw: (pen) => {
      pen.box(boxOf(-half, base * scale, half, top * scale), METAL);
      boxes.forEach(({ sheet, spacer, metal }, layer) => {
        if (spacer !== undefined) pen.box(spacer, metal ? OTHER_METAL : PLASTIC);
        pen.box(sheet, layer === upTo ? { ...METAL, width: 0.6 } : METAL);
      });
      const y = (newest?.sheet.maxY ?? 0) + 8;
      pen.line({ x: -half + 4, y: y - 6 }, { x: -half + 4, y }, LINE);
      arrowHead(pen, { x: -half + 4, y }, { direction: { x: 0, y: 1 }, lengthMm: 2, colour: '#000000' });
      drawPointers(pen, pointers);
    },
  };
}

interface LayerBoxes {
  readonly sheet: Bounds;
  readonly spacer: Bounds | undefined;
  readonly metal: boolean;
}

function layerBoxes(assembly: Assembly, layer: number, scale: number): LayerBoxes {
  const of = assembly.design.layers[layer];
  const height = assembly.layerHeights[layer];
  if (of === undefined || height === undefined) throw new RangeError(`no layer ${layer}`);
  const half = (shapeExtent(of.shape, assembly.design.lattice.orientation).widthMm / 2) * scale;
  const [low, high] = [
    height.bodyUndersideMm * scale,
    Math.max(height.bodyTopMm, height.bodyUndersideMm + 0.5) * scale,
  ];
  const sheet = boxOf(-half, low, half, high);
  if (of.spacer === undefined) return { sheet, spacer: undefined, metal: false };
  const stock = of.spacer.kind === 'stock' ? of.spacer.spacer : undefined;
  const across = ((stock?.acrossMm ?? 8) / 2) * scale;
  const spacer = boxOf(-across, low - spacerHeightMm(of) * scale, across, low);
  return { sheet, spacer, metal: (stock?.material.conductivitySm ?? 0) > 0 };
}
