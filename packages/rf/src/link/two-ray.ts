import { add, type Complex, complex, divide, magnitude, multiply, polar, scale, subtract } from '../complex.ts';
import { ELECTRIC_CONSTANT, wavelength, waveNumber } from '../constants.ts';
import { requireNotNegative, requirePositive } from '../require.ts';

/** What a wave is thrown back by. Fresh water at 20 °C, or medium dry ground. */
export type Surface = 'water' | 'ground';

/**
 * Complex relative permittivity (imaginary part negative) of a surface at a frequency in Hz, 0.5 to 10 GHz.
 * Water: one Debye term of pure water at 20 °C, 80.2, 5.6 and 9.36 ps (Kaatze, J. Chem. Eng. Data 34 (1989) 371; memory).
 * Ground: medium dry, 15 and 0.035 S/m (ITU-R P.527, figures; memory).
 */
export function surfacePermittivity(surface: Surface, freqHz: number): Complex {
  requirePositive({ freqHz });
  const angular = 2 * Math.PI * freqHz;
  if (surface === 'ground') return complex(15, -0.035 / (angular * ELECTRIC_CONSTANT));
  return add(complex(5.6), divide(complex(80.2 - 5.6), complex(1, angular * 9.36e-12)));
}

/** Square root with a real part of 0 or above. */
function squareRoot(a: Complex): Complex {
  const size = magnitude(a);
  const re = Math.sqrt((size + a.re) / 2);
  const im = Math.sqrt((size - a.re) / 2);
  return complex(re, a.im < 0 ? -im : im);
}

/**
 * Reflection of a plane wave by a flat surface at the grazing angle (rad, above 0 to pi/2), for the electric field level or upright
 * (Fresnel's equations as in ITU-R P.527 and Balanis, Advanced Engineering Electromagnetics, ch. 5). Towards grazing both go to -1.
 */
export function surfaceReflection(permittivity: Complex, grazing: number, field: 'horizontal' | 'vertical'): Complex {
  requirePositive({ grazing });
  const sine = complex(Math.sin(grazing));
  const root = squareRoot(subtract(permittivity, complex(Math.cos(grazing) ** 2)));
  const first = field === 'horizontal' ? sine : multiply(permittivity, sine);
  return divide(subtract(first, root), add(first, root));
}

/**
 * What of the mirror reflection a rough surface leaves: exp(-8 (pi s sin(grazing) / lambda)^2) for a roughness s (standard deviation of
 * its height, m) (Ament 1953, Rayleigh's criterion squared; ITU-R P.530 names the same effect; memory).
 */
export function coherentShare(roughnessM: number, grazing: number, freqHz: number): number {
  requireNotNegative({ roughnessM, grazing });
  requirePositive({ freqHz });
  return Math.exp(-8 * ((Math.PI * roughnessM * Math.sin(grazing)) / wavelength(freqHz)) ** 2);
}

export interface TwoRayPath {
  readonly distanceM: number;
  /** Of the antennas above the reflecting plane, both above 0. */
  readonly nearHeightM: number;
  readonly farHeightM: number;
  readonly freqHz: number;
}

/** The second ray of a path over a flat plane. */
export interface SecondRay {
  /** Angle to the surface, rad. */
  readonly grazing: number;
  /** How much longer its way is, m. */
  readonly extraM: number;
  /** Distance of the point of reflection from the near end, m. */
  readonly pointM: number;
}

export function secondRay({ distanceM, nearHeightM, farHeightM }: Omit<TwoRayPath, 'freqHz'>): SecondRay {
  requirePositive({ distanceM, nearHeightM, farHeightM });
  const rise = nearHeightM + farHeightM;
  const [direct, bounced] = [Math.hypot(distanceM, nearHeightM - farHeightM), Math.hypot(distanceM, rise)];
  // (bounced^2 - direct^2) / (bounced + direct), free of cancellation.
  const extraM = (4 * nearHeightM * farHeightM) / (bounced + direct);
  return { grazing: Math.atan2(rise, distanceM), extraM, pointM: (distanceM * nearHeightM) / rise };
}

/**
 * Loss beyond that of free space, dB, when a direct and a reflected ray meet at antennas that treat both alike: negative where they add
 * (to -6 dB), without limit where they cancel. Flat plane, so for paths to a few kilometres (Rappaport, Wireless Communications, ch. 4.6).
 */
export function twoRayExcessLossDb(path: TwoRayPath, reflection: Complex): number {
  requirePositive({ freqHz: path.freqHz });
  const { extraM } = secondRay(path);
  const direct = Math.hypot(path.distanceM, path.nearHeightM - path.farHeightM);
  const turned = multiply(reflection, polar(1, -waveNumber(path.freqHz) * extraM));
  return -20 * Math.log10(magnitude(add(complex(1), scale(turned, direct / (direct + extraM)))));
}

/**
 * Height of the far antenna above the plane, nearest to its own, at which a reflection of -1 adds: 2 h1 h2 / d is an odd number of half
 * wavelengths (Rappaport, ch. 4.6). Above 0.
 */
export function nearestPeakHeightM({ distanceM, nearHeightM, farHeightM, freqHz }: TwoRayPath): number {
  requirePositive({ distanceM, nearHeightM, farHeightM, freqHz });
  const step = (wavelength(freqHz) * distanceM) / (2 * nearHeightM);
  return step * (Math.max(0, Math.round(farHeightM / step - 0.5)) + 0.5);
}
