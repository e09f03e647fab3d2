import type { Prediction } from '../prediction.ts';
import { fixed, percent } from './format.ts';

/** How far the numbers may be off, and how the runs ended. */
export function errorSentences({ response, meshError, figures, runs }: Prediction): readonly string[] {
  const { frequency, coefficient, gainDb, origin } = response.error;
  const parts = [
    ...(frequency === undefined ? [] : [`frequencies by ${percent(frequency)}`]),
    ...(coefficient === undefined ? [] : [`reflection by ${fixed(coefficient, 3)} of the full scale`]),
    ...(gainDb === undefined ? [] : [`gain by ${fixed(gainDb, 1)} dB`]),
  ];
  return [
    parts.length === 0
      ? `How far the numbers are off is not known: ${origin}`
      : `May be off: ${parts.join(', ')}. ${origin}`,
    ...(meshError === undefined ? ['A second grid (--check-mesh) would say more about the error of the grid.'] : []),
    ...balance(figures),
    ...(runs.some(({ end }) => end === 'extrapolated')
      ? ['The last of the ringing was carried on by a few damped oscillations that fit it to 0.2 %.']
      : []),
  ];
}

/** Where the power went at the frequency with the largest rest. */
function balance(figures: Prediction['figures']): readonly string[] {
  const [first, ...others] = figures;
  if (first === undefined) return [];
  const worst = others.reduce((a, b) => (Math.abs(b.balance.rest) > Math.abs(a.balance.rest) ? b : a), first);
  const { radiated, metal, rest } = worst.balance;
  return [
    `Power balance: ${percent(radiated)} of what the port accepts is found radiated, ${percent(metal)} is lost in metal; ${percent(rest)} goes into dielectrics or is the error of the balance.`,
  ];
}
