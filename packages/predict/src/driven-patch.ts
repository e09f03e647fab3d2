import type { Design, Laminate, Layer } from '@sheetwave/design';
import { type Assembly, feedDirection } from '@sheetwave/geometry';
import { effectiveRadius, type RectangularPatch, roughnessFactor, skinDepth, surfaceResistance } from '@sheetwave/rf';

/** Roughness of rolled sheet and of laminate copper, root mean square, m (workshop handbooks, from memory). */
const ROLLED_M = 0.3e-6;
const FOIL_M = 1.5e-6;
const COPPER_SM = 58e6;

/** The driven patch as the closed forms see it: SI, over one filling. */
export interface DrivenPatch {
  readonly shape: 'rectangle' | 'circle';
  /** Length and width of a rectangle; twice the diameter of a disc, m. */
  readonly lengthM: number;
  readonly widthM: number;
  readonly heightM: number;
  readonly sheetM: number;
  readonly permittivity: number;
  readonly lossTangent: number;
  readonly conductivity: number;
  /** Root-mean-square roughness, m. */
  readonly roughnessM: number;
  /** From the radiating edge to the feed point, m; 0 for an edge feed. */
  readonly feedFromEdgeM: number;
}

/** The driven layer in SI units. A board carried on spacers counts as metal over air: its dielectric lies outside the field's main part. Throws for a shape that `closedForms` gives none for. */
export function drivenPatch({ design, layerHeights }: Assembly): DrivenPatch {
  const [layer] = design.layers;
  const [height] = layerHeights;
  if (!layer || !height) throw new Error('a design has at least one layer');
  const { shape } = layer;
  const filling = fillingUnder(design, layer);
  if (shape.kind !== 'rectangle' && shape.kind !== 'circle') throw new Error(`no closed form for a ${shape.kind}`);
  const size = shape.kind === 'circle' ? { lengthMm: shape.diameterMm, widthMm: shape.diameterMm } : shape;
  return {
    shape: shape.kind,
    lengthM: size.lengthMm / 1000,
    widthM: size.widthMm / 1000,
    heightM: height.undersideMm / 1000,
    sheetM: (height.topMm - height.undersideMm) / 1000,
    permittivity: filling?.permittivity ?? 1,
    lossTangent: filling?.lossTangent ?? 0,
    conductivity: layer.build.kind === 'sheet' ? layer.build.sheet.material.conductivitySm : COPPER_SM,
    roughnessM: layer.build.kind === 'sheet' ? ROLLED_M : FOIL_M,
    feedFromEdgeM: feedFromEdgeMm(design) / 1000,
  };
}

function fillingUnder({ reflector }: Design, layer: Layer): Laminate | undefined {
  return layer.build.kind === 'on-reflector-board' && reflector.material.kind === 'board'
    ? reflector.material.laminate
    : undefined;
}

function feedFromEdgeMm({ feed }: Design): number {
  if (feed.kind === 'probe') return feed.fromEdgeMm;
  return feed.kind === 'inset' ? feed.depthMm : 0;
}

/** The same patch as rf's rectangle. A disc stands in by a square of its effective area, for what depends on size only. */
export function asRectangle(patch: DrivenPatch): RectangularPatch {
  const { heightM, sheetM, permittivity } = patch;
  if (patch.shape === 'rectangle')
    return { lengthM: patch.lengthM, widthM: patch.widthM, heightM, sheetM, permittivity };
  const side = Math.sqrt(Math.PI) * effectiveRadius({ radiusM: patch.lengthM / 2, heightM, permittivity });
  return { lengthM: side, widthM: side, heightM, sheetM, permittivity };
}

/** Surface resistance of the patch's metal with its roughness, ohm per square. */
export function surfaceOhm(patch: Pick<DrivenPatch, 'conductivity' | 'roughnessM'>, freqHz: number): number {
  const smooth = surfaceResistance(freqHz, patch.conductivity);
  return smooth * roughnessFactor(patch.roughnessM, skinDepth(freqHz, patch.conductivity));
}

/** True when the resonant length is vertical as hung. */
export function lengthIsVertical(design: Design): boolean {
  return feedDirection(design.lattice.orientation).y !== 0;
}
