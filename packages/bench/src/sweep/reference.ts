import type { Response } from '@sheetwave/rf';
import { renormalised } from '../touchstone/parameters.ts';

/** The same response against another reference, ohm. Throws RangeError where it has none. */
export function againstReference(response: Response, referenceOhm: number): Response {
  if (response.referenceOhm === referenceOhm) return response;
  const s = response.s.map((matrix, i) => {
    const turned = renormalised(
      matrix,
      matrix.map(() => response.referenceOhm),
      referenceOhm,
    );
    if (turned === undefined)
      throw new RangeError(`the response has no ${referenceOhm} ohm form at ${response.freqHz[i]} Hz.`);
    return turned;
  });
  return { ...response, referenceOhm, s };
}
