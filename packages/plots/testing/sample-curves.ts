import { type Complex, reflection } from '@sheetwave/rf';
import type { ReflectionCurve } from '../src/reflection-curve.ts';

/**
 * The reflection of a series resonant circuit against 50 ohm: R + jR Q (f/f0 - f0/f), from any text on circuits. At f0 it is real and
 * (R - 50)/(R + 50).
 */
export function seriesResonator(
  circuit: { readonly ohm: number; readonly freqHz: number; readonly quality: number },
  sweep: { readonly lowHz: number; readonly highHz: number; readonly points: number },
): Pick<ReflectionCurve, 'freqHz' | 'reflection' | 'referenceOhm'> {
  const freqHz = Array.from(
    { length: sweep.points },
    (_, i) => sweep.lowHz + ((sweep.highHz - sweep.lowHz) * i) / (sweep.points - 1),
  );
  const impedance = (hz: number): Complex => ({
    re: circuit.ohm,
    im: circuit.ohm * circuit.quality * (hz / circuit.freqHz - circuit.freqHz / hz),
  });
  return { freqHz, reflection: freqHz.map((hz) => reflection(impedance(hz), 50)), referenceOhm: 50 };
}
