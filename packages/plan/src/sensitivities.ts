import { type LayerSpacer, sheetToleranceMm } from '@sheetwave/design';
import type { PlanInput, Sensitivity } from './input.ts';

/** Metal spacers are sold to ± 0.1 mm, plastic ones to ± 0.25 mm (trade practice, memory). */
const METAL_SPACER_MM = 0.1;
const PLASTIC_SPACER_MM = 0.25;
/** Dielectric of a laminate, ± of its thickness (trade practice, memory). */
const LAMINATE_SHARE = 0.1;

/** What the closed forms know of the driven patch; empty when they do not hold for its shape. */
export function closedFormSensitivities({
  assembly,
  estimate,
}: Pick<PlanInput, 'assembly' | 'estimate'>): readonly Sensitivity[] {
  const [driven] = assembly.design.layers;
  if (driven === undefined) return [];
  const { material } = assembly.design.reflector;
  const cutMm = driven.process.toleranceMm;
  const toleranceMm = {
    cut: cutMm,
    gap:
      driven.spacer === undefined
        ? material.kind === 'board'
          ? material.laminate.thicknessMm * LAMINATE_SHARE
          : 0
        : spacerToleranceMm(driven.spacer),
    sheet: driven.build.kind === 'sheet' ? (sheetToleranceMm(driven.build.sheet.thicknessMm, 300) ?? 0) : 0,
  };
  return (estimate.slopes ?? []).map(({ dimension, mhzPerTenthMm, errorMhz, sets }) => ({
    what: `${dimension}, driven patch`,
    toleranceMm: toleranceMm[sets],
    mhzPerTenthMm,
    errorMhz,
  }));
}

function spacerToleranceMm(spacer: LayerSpacer): number {
  if (spacer.kind === 'printed') return METAL_SPACER_MM;
  return spacer.spacer.material.conductivitySm > 0 ? METAL_SPACER_MM : PLASTIC_SPACER_MM;
}
