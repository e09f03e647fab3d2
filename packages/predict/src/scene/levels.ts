import type { Assembly } from '@sheetwave/geometry';

/** Heights of one layer above the reflector with foils of no thickness, mm. */
export interface SceneLevel {
  /** Where the metal that radiates begins; a foil lies there, a sheet reaches up to `metalTopMm`. */
  readonly metalMm: number;
  readonly metalTopMm: number;
  /** What spacers touch from below and from above: the sheet, or the dielectric of a board. */
  readonly bodyMm: number;
  readonly bodyTopMm: number;
}

/**
 * Levels of the layers. The copper of a board (35 to 70 um) counts as no thickness: it lies on the face of its dielectric,
 * whose place stays true.
 */
export function sceneLevels({ design, layerHeights }: Assembly): readonly SceneLevel[] {
  return layerHeights.map((height, index): SceneLevel => {
    const { undersideMm, topMm, bodyUndersideMm, bodyTopMm } = height;
    const build = design.layers[index]?.build;
    if (build?.kind === 'sheet') return sheetLevel(undersideMm, topMm);
    if (build?.kind !== 'board') return sheetLevel(undersideMm, undersideMm);
    const copperMm = topMm - undersideMm;
    return build.copperSide === 'inward'
      ? { metalMm: topMm, metalTopMm: topMm, bodyMm: topMm, bodyTopMm }
      : {
          metalMm: bodyTopMm - copperMm,
          metalTopMm: bodyTopMm - copperMm,
          bodyMm: bodyUndersideMm,
          bodyTopMm: bodyTopMm - copperMm,
        };
  });
}

const sheetLevel = (fromMm: number, toMm: number): SceneLevel => ({
  metalMm: fromMm,
  metalTopMm: toMm,
  bodyMm: fromMm,
  bodyTopMm: toMm,
});

/** What the spacer under a layer stands on, mm: the layer below, or the reflector (of a board its top). */
export function seatMm(assembly: Assembly, levels: readonly SceneLevel[], layer: number): number {
  const below = levels[layer - 1];
  if (below) return below.bodyTopMm;
  const { material } = assembly.design.reflector;
  return material.kind === 'board' ? material.laminate.thicknessMm : 0;
}
