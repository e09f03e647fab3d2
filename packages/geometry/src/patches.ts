import type { Design, Layer, PatchShape } from '@sheetwave/design';
import type { BoardPart, CopperPiece, PlatePart } from './assembly.ts';
import { circleContour, polygonContour, rectangleContour } from './contours.ts';
import { feedPointInElement, halfLengthMm } from './lattice.ts';
import { offsetContour } from './offset.ts';
import type { Contour, Hole, Mark, Outline, Point } from './outline.ts';

/** Solder mask keeps this far from bare copper: registration of an ordinary board house (common practice). */
export const MASK_CLEARANCE_MM = 0.1;

/** The metal of a patch in its own plane: resonant length along y, centre at (0, 0). */
export function patchContour(shape: PatchShape): Contour {
  const centre = { x: 0, y: 0 };
  switch (shape.kind) {
    case 'rectangle':
      return rectangleContour({ centre, widthMm: shape.widthMm, heightMm: shape.lengthMm });
    case 'circle':
      return circleContour(centre, shape.diameterMm / 2);
  }
}

/** The driven patch with the two slots of an inset feed, which leave the line `lineMm` wide between them. */
export function insetPatchContour(
  shape: PatchShape,
  inset: { depthMm: number; gapMm: number; lineMm: number },
): Contour {
  if (shape.kind !== 'rectangle') throw new Error('an inset feed needs a rectangular patch');
  const { lengthMm, widthMm } = shape;
  const notch = inset.lineMm / 2 + inset.gapMm;
  const low = -lengthMm / 2;
  const deep = low + inset.depthMm;
  return polygonContour([
    { x: -widthMm / 2, y: low },
    { x: -notch, y: low },
    { x: -notch, y: deep },
    { x: notch, y: deep },
    { x: notch, y: low },
    { x: widthMm / 2, y: low },
    { x: widthMm / 2, y: lengthMm / 2 },
    { x: -widthMm / 2, y: lengthMm / 2 },
  ]);
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
      const outline: Outline = { outer: patchContour(layer.shape), cutouts: [], holes };
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

/** Which way round the patch goes: a scribed line inside the fed edge of the driven patch, and along the length of others. */
function patchMarks(layer: Layer, index: number): Mark[] {
  if (layer.shape.kind === 'circle' && index > 0) return [];
  const half = halfLengthMm(layer.shape);
  const text = index === 0 ? 'feed edge' : 'length';
  const heightMm = Math.min(2, half / 4);
  const at: Point = index === 0 ? { x: 0, y: -half + heightMm / 2 } : { x: 0, y: half / 2 };
  const centreLine: Mark = { kind: 'line', purpose: 'centre', from: { x: 0, y: -half }, to: { x: 0, y: half } };
  return [centreLine, { kind: 'text', purpose: index === 0 ? 'feed-edge' : 'label', at, text, heightMm }];
}

function patchBoard(
  layer: Layer,
  holes: readonly Hole[],
  index: number,
): Pick<BoardPart, 'outline' | 'copper' | 'maskOpenings' | 'marks'> {
  if (layer.build.kind !== 'board') throw new Error('not a board layer');
  const metal = patchContour(layer.shape);
  const outline: Outline = { outer: offsetContour(metal, layer.build.borderMm), cutouts: [], holes };
  const piece: CopperPiece = { purpose: 'patch', polarity: 'dark', contour: metal };
  const opening = offsetContour(metal, Math.min(MASK_CLEARANCE_MM, layer.build.borderMm));
  const outward = layer.build.copperSide === 'outward';
  return {
    outline,
    copper: outward ? { top: [piece], bottom: [] } : { top: [], bottom: [piece] },
    maskOpenings: outward ? { top: [opening], bottom: [] } : { top: [], bottom: [opening] },
    marks: patchMarks(layer, index),
  };
}
