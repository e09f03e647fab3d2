import type { Coax } from '@sheetwave/design';
import { type Assembly, coaxPinRiseMm, reflectorUndersideMm } from '@sheetwave/geometry';

/** How the end of the cable is stripped: from the jacket outward. */
export interface CoaxEnd {
  readonly coax: Coax;
  /** Dielectric that stands out of the jacket: as long as the reflector is thick, so that it ends flush with its front. */
  readonly dielectricMm: number;
  /** Pin that stands out of the dielectric. */
  readonly pinMm: number;
  /** The whole cable as it is cut. */
  readonly cutMm: number;
}

/** Undefined where a connector sits at the reflector and no cable comes through it. */
export function coaxEnd(assembly: Assembly): CoaxEnd | undefined {
  const { coax, lengthMm } = assembly.design.coax;
  if (!assembly.parts.some((part) => part.form === 'bought' && part.item.kind === 'coax')) return undefined;
  const dielectricMm = assembly.reflector.thicknessMm;
  const rise = coaxPinRiseMm(assembly.design, assembly.layerHeights[0]?.topMm ?? 0);
  const bared = rise - reflectorUndersideMm(assembly.design);
  return { coax, dielectricMm, pinMm: bared - dielectricMm, cutMm: lengthMm + bared };
}
