import { add, type Complex, complex, divide, magnitude, multiply, polar, subtract } from '../complex.ts';
import { wavelength, waveNumber } from '../constants.ts';
import { requireNotNegative, requirePermittivity, requirePositive } from '../require.ts';

/** A flat cover in front of an antenna. */
export interface CoverSheet {
  readonly thicknessM: number;
  readonly permittivity: number;
  readonly lossTangent: number;
}

export interface CoverWave {
  /** Of a wave that meets the sheet square on, at its front face. */
  readonly reflection: Complex;
  /** What passes is weaker by this, dB, 0 or above. */
  readonly lossDb: number;
}

/** Square root with a negative imaginary part, for a lossy permittivity. */
function indexOf(permittivity: number, lossTangent: number): Complex {
  const size = permittivity * Math.hypot(1, lossTangent);
  return complex(Math.sqrt((size + permittivity) / 2), -Math.sqrt((size - permittivity) / 2));
}

/**
 * Reflection by a flat sheet of any thickness and what it takes off a wave that passes, at normal incidence: the exact sum of all inner
 * reflections (Born & Wolf, Principles of Optics, 7.6; Pozar, Microwave Engineering, ch. 1.8 and 2). For a thin sheet the reflection is about
 * pi (permittivity - 1) t / lambda.
 */
export function coverWave({ thicknessM, permittivity, lossTangent }: CoverSheet, freqHz: number): CoverWave {
  requirePositive({ thicknessM, freqHz });
  requirePermittivity({ permittivity });
  requireNotNegative({ lossTangent });
  const index = indexOf(permittivity, lossTangent);
  const face = divide(subtract(complex(1), index), add(complex(1), index));
  const along = waveNumber(freqHz) * thicknessM;
  // One way through the sheet: exp(-j k n t), n = n' - j n''.
  const pass = polar(Math.exp(along * index.im), -along * index.re);
  const twice = multiply(pass, pass);
  const below = subtract(complex(1), multiply(multiply(face, face), twice));
  const reflection = divide(multiply(face, subtract(complex(1), twice)), below);
  const through = divide(multiply(subtract(complex(1), multiply(face, face)), pass), below);
  return { reflection, lossDb: Math.max(0, -20 * Math.log10(magnitude(through))) };
}

export interface CoverShift {
  /** Largest share by which the resonance may move either way. */
  readonly mostShare: number;
  /** The share that the phase at this distance gives, negative for a lower resonance. */
  readonly share: number;
  /** False nearer than a tenth of a wavelength, where the near field meets the sheet and this does not hold. */
  readonly holds: boolean;
}

/**
 * How a cover moves the resonance of an antenna, to first order. The sheet throws a share of the wave back, which returns with the phase
 * -2 k d; it loads a resonator of quality Q with the admittance (1 - r) / (1 + r) instead of 1, and the susceptance moves the resonance by
 * -b / (2 Q), b about -2 |r| sin(phase) (Pozar, ch. 6.1, loaded resonators). All that is thrown back is taken to return, which holds for a
 * cover close to a large panel and is too much for a small one; a stack of several resonators moves otherwise: 120 MHz by a field solution where
 * this gives 74, for a sheet of 2 mm half a wavelength in front of stacks of three. `distanceM` from the outermost patch to the sheet.
 */
export function coverShift(reflection: Complex, distanceM: number, quality: number, freqHz: number): CoverShift {
  requireNotNegative({ distanceM });
  requirePositive({ quality, freqHz });
  const back = multiply(reflection, polar(1, -2 * waveNumber(freqHz) * distanceM));
  const load = divide(subtract(complex(1), back), add(complex(1), back));
  const thrown = magnitude(reflection);
  return {
    // The susceptance of (1 - r) / (1 + r) is largest across the phase at 2 |r| / (1 - |r|^2).
    mostShare: thrown / ((1 - thrown * thrown) * quality),
    share: -load.im / (2 * quality),
    holds: distanceM >= wavelength(freqHz) / 10,
  };
}

/** Loaded quality of an antenna that just fills its band at a standing wave ratio: (S - 1) / (sqrt(S) B) (Balanis, Antenna Theory, 14-88a). */
export function bandQuality(lowHz: number, highHz: number, vswr: number): number {
  requirePositive({ lowHz, widthHz: highHz - lowHz, aboveOne: vswr - 1 });
  return ((vswr - 1) / Math.sqrt(vswr)) * ((lowHz + highHz) / 2 / (highHz - lowHz));
}
