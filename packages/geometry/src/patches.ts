import type { Design, Layer, PatchShape } from '@sheetwave/design';
import type { BoardPart, CopperPiece, PlatePart } from './assembly.ts';
import { bounds } from './contour-measure.ts';
import { rectangleContour } from './contours.ts';
import { feedPointInElement } from './lattice.ts';
import { offsetContour } from './offset.ts';
import type { Contour, Hole, Outline } from './outline.ts';
import { patchMarks } from './patch-marks.ts';
import { type PatchMetal, patchMetal } from './shapes/patch-metal.ts';
import { rectangleOuter } from './shapes/rectangle-patch.ts';

/** Solder mask keeps this far from bare copper: registration of an ordinary board house (common practice). */
export const MASK_CLEARANCE_MM = 0.1;

/** The outside of a patch's metal in its own plane: resonant length along y, centre at (0, 0). */
export function patchContour(shape: PatchShape): Contour {
  return patchMetal(shape).outer;
}

/** The driven patch with the two slots of an inset feed, which leave the line `lineMm` wide between them. */
export function insetPatchContour(
  shape: PatchShape,
  inset: { depthMm: number; gapMm: number; lineMm: number },
): Contour {
  if (shape.kind !== 'rectangle') throw new Error('an inset feed needs a rectangular patch');
  return rectangleOuter(shape, { halfMm: inset.lineMm / 2 + inset.gapMm, depthMm: inset.depthMm });
}

/** The etched metal of a patch: its outside, and what its cut-outs take away again. */
export function copperPieces({ outer, cutouts }: PatchMetal): readonly CopperPiece[] {
  const holes = cutouts.map((contour): CopperPiece => ({ purpose: 'clearance', polarity: 'clear', contour }));
  return [{ purpose: 'patch', polarity: 'dark', contour: outer }, ...holes];
}

/**
 * Bare board around a piece of copper. Where the copper is so narrow inside that its edge cannot be followed (a notch, a drawn outline),
 * the opening is the rectangle around it.
 */
export function maskOpening(contour: Contour, clearanceMm: number): Contour {
  try {
    return offsetContour(contour, clearanceMm);
  } catch {
    return boxAround(contour, clearanceMm);
  }
}

function boxAround(contour: Contour, marginMm: number): Contour {
  const { minX, maxX, minY, maxY } = bounds(contour);
  const centre = { x: (minX + maxX) / 2, y: (minY + maxY) / 2 };
  return rectangleContour({ centre, widthMm: maxX - minX + 2 * marginMm, heightMm: maxY - minY + 2 * marginMm });
}

/** The board that carries a patch: its plain form with the border all round; the rectangle around a drawn outline. */
function boardContour(shape: PatchShape, borderMm: number): Contour {
  const metal = patchContour(shape);
  if (shape.kind === 'rectangle' || shape.kind === 'outline') return boxAround(metal, borderMm);
  return offsetContour(metal, borderMm);
}

/** The part of one layer, or undefined when it is etched on the reflector's board and so part of that. */
export function patchPart(design: Design, index: number): PlatePart | BoardPart | undefined {
  const layer = design.layers[index];
  if (!layer) throw new RangeError(`no layer ${index}`);
  const base = {
    id: `patch-${layer.name}`,
    name: `${layer.name} patch`,
    quantity: design.lattice.rows * design.lattice.columns,
    process: layer.process,
  };
  const holes = patchHoles(design, index);
  switch (layer.build.kind) {
    case 'sheet': {
      const outline: Outline = { ...patchMetal(layer.shape), holes };
      return {
        ...base,
        form: 'plate',
        role: 'patch',
        sheet: layer.build.sheet,
        keepsGrain: layer.grain,
        outline,
        marks: patchMarks(layer, index),
      };
    }
    case 'board':
      return {
        ...base,
        form: 'board',
        role: 'patch',
        laminate: layer.build.laminate,
        ...patchBoard(layer, holes, index),
      };
    case 'on-reflector-board':
      return undefined;
  }
}

function patchHoles(design: Design, index: number): Hole[] {
  const layer = design.layers[index];
  const holes: Hole[] = [];
  if (layer?.fixingHoleMm !== undefined) {
    holes.push({ purpose: 'fixing', centre: { x: 0, y: 0 }, diameterMm: layer.fixingHoleMm, plated: false });
  }
  if (layer && index === 0 && design.feed.kind === 'probe') {
    holes.push({
      purpose: 'feed',
      centre: feedPointInElement(design, layer),
      diameterMm: design.feed.solderHoleMm,
      plated: false,
    });
  }
  return holes;
}

function patchBoard(
  layer: Layer,
  holes: readonly Hole[],
  index: number,
): Pick<BoardPart, 'outline' | 'copper' | 'maskOpenings' | 'marks'> {
  if (layer.build.kind !== 'board') throw new Error('not a board layer');
  const metal = patchMetal(layer.shape);
  const outline: Outline = { outer: boardContour(layer.shape, layer.build.borderMm), cutouts: [], holes };
  const pieces = copperPieces(metal);
  const opening = maskOpening(metal.outer, Math.min(MASK_CLEARANCE_MM, layer.build.borderMm));
  const outward = layer.build.copperSide === 'outward';
  return {
    outline,
    copper: outward ? { top: pieces, bottom: [] } : { top: [], bottom: pieces },
    maskOpenings: outward ? { top: [opening], bottom: [] } : { top: [], bottom: [opening] },
    marks: patchMarks(layer, index),
  };
}
