import type { Design } from '@sheetwave/design';
import { plain } from '@sheetwave/drawings';
import { reflectionChart, type reflectionCurve } from '@sheetwave/plots';
import type { PlanFigure } from '../document.ts';
import { ofFigure } from '../figure-block.ts';

export interface ReflectionShown {
  readonly curves: readonly ReturnType<typeof reflectionCurve>[];
  readonly band: Design['band'];
  readonly vswr: number;
}

const ghz = (hz: number): string => plain(hz / 1e9, 3);

/** Reflection over frequency with the band and the wanted match. `by` begins its words: `Predicted`, `Estimated`. */
export function reflectionFigure(
  { curves, band, vswr }: ReflectionShown,
  { id, by }: { readonly id: string; readonly by: string },
): PlanFigure {
  const about = `${by} reflection over frequency, with the band from ${ghz(band.lowHz)} to ${ghz(band.highHz)} GHz and the wanted VSWR of ${plain(vswr)}.`;
  const figure = reflectionChart({ curves, target: { ...band, vswr } }, { title: 'Reflection', about, name: id });
  return ofFigure(id, `${by} reflection at the coax.`, figure);
}
