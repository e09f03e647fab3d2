import { add, type Complex, complex, divide } from './complex.ts';
import { requireFinite, requirePositive } from './require.ts';

/** One patch as a circuit: a series reactance and a parallel resonance behind it. */
export interface PatchResonator {
  readonly resonanceHz: number;
  readonly quality: number;
  /** At the feed point at resonance, ohm. */
  readonly resistanceOhm: number;
  /** Series reactance at resonance, ohm; grows with frequency as an inductance, or falls as a capacitance when negative. 0 for an edge feed. */
  readonly seriesOhm: number;
}

/**
 * Input impedance (ohm) of a single-layer patch: jX + R/(1 + jQ(f/f0 - f0/f)) (the parallel-resonance model of Balanis,
 * Antenna Theory, ch. 14, and Carver & Mink, IEEE Trans. AP-29 (1981) 2-24). Holds within a few bandwidths of the resonance;
 * other modes and parasitic patches are not in it.
 */
export function patchImpedance(patch: PatchResonator, freqHz: number): Complex {
  const { resonanceHz, quality, resistanceOhm, seriesOhm } = patch;
  requirePositive({ resonanceHz, quality, resistanceOhm, freqHz });
  requireFinite({ seriesOhm });
  const ratio = freqHz / resonanceHz;
  const resonant = divide(complex(resistanceOhm), complex(1, quality * (ratio - 1 / ratio)));
  return add(resonant, complex(0, seriesOhm >= 0 ? seriesOhm * ratio : seriesOhm / ratio));
}
