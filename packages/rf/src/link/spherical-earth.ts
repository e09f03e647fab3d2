import { wavelength } from '../constants.ts';
import { requireNotNegative, requirePositive } from '../require.ts';

/** A path over a smooth earth. Metres. */
export interface SmoothPath {
  readonly distanceM: number;
  /** Above the smooth surface, 0 or more. */
  readonly nearAboveM: number;
  readonly farAboveM: number;
  readonly freqHz: number;
  /** Effective, m. */
  readonly earthRadiusM: number;
  readonly field: 'vertical' | 'horizontal';
}

/** Average ground: relative permittivity and conductivity, S/m (ITU-R P.527, as P.452 and P.526 take it; memory). */
const GROUND = { permittivity: 22, conductivitySm: 0.003 } as const;

/**
 * Loss by the curvature of a smooth earth, dB (ITU-R P.526-15, section 3.2; memory): none where 0.552 sqrt(d1 d2 lambda / d) is clear at the tightest
 * place, the first term of the residue series beyond the horizon, and in between that of an earth on which the horizon is just reached, in
 * proportion to what is missing.
 */
export function sphericalEarthLossDb(path: SmoothPath): number {
  const { distanceM: d, freqHz, earthRadiusM } = path;
  requirePositive({ distanceM: d, freqHz, earthRadiusM });
  requireNotNegative({ nearAboveM: path.nearAboveM, farAboveM: path.farAboveM });
  const roots = Math.sqrt(path.nearAboveM) + Math.sqrt(path.farAboveM);
  if (d >= Math.sqrt(2 * earthRadiusM) * roots) return Math.max(0, residueLossDb(path));
  const { clearanceM, neededM } = tightestOverSphere(path);
  if (clearanceM > neededM) return 0;
  const beyond = residueLossDb({ ...path, earthRadiusM: 0.5 * (d / roots) ** 2 });
  return beyond < 0 ? 0 : (1 - clearanceM / neededM) * beyond;
}

/** The smallest height of the line of sight over the sphere, and what it should be (section 3.2, equations 22 to 25). */
function tightestOverSphere({ distanceM: d, nearAboveM, farAboveM, freqHz, earthRadiusM }: SmoothPath) {
  const [high, low] = nearAboveM >= farAboveM ? [nearAboveM, farAboveM] : [farAboveM, nearAboveM];
  const c = (high - low) / (high + low);
  const m = (d * d) / (4 * earthRadiusM * (high + low));
  const turn = Math.acos(Math.min(1, ((3 * c) / 2) * Math.sqrt((3 * m) / (m + 1) ** 3)));
  const b = 2 * Math.sqrt((m + 1) / (3 * m)) * Math.cos(Math.PI / 3 + turn / 3);
  const d1 = (d / 2) * (1 + b);
  const d2 = d - d1;
  const over = (height: number, at: number) => height - (at * at) / (2 * earthRadiusM);
  return {
    clearanceM: (over(high, d1) * d2 + over(low, d2) * d1) / d,
    neededM: 0.552 * Math.sqrt((d1 * d2 * wavelength(freqHz)) / d),
  };
}

/** -(F(X) + G(Y1) + G(Y2)) (section 3.1.1.2, equations 13 to 18), dB; may be negative. */
function residueLossDb(path: SmoothPath): number {
  const { distanceM, nearAboveM, farAboveM, freqHz, earthRadiusM } = path;
  const k = surfaceFactor(path);
  const beta = (1 + 1.6 * k ** 2 + 0.67 * k ** 4) / (1 + 4.5 * k ** 2 + 1.53 * k ** 4);
  const lambda = wavelength(freqHz);
  const x = beta * distanceM * (Math.PI / (lambda * earthRadiusM ** 2)) ** (1 / 3);
  const heightOf = (aboveM: number) => 2 * beta * aboveM * (Math.PI ** 2 / (lambda ** 2 * earthRadiusM)) ** (1 / 3);
  const gainOf = (aboveM: number) => heightGainDb(beta * heightOf(aboveM), k);
  return -(distanceTermDb(x) + gainOf(nearAboveM) + gainOf(farAboveM));
}

/** Normalised surface admittance K of the ground for the direction of the field (equations 16 and 16a). */
function surfaceFactor({ freqHz, earthRadiusM, field }: SmoothPath): number {
  const lost = (18_000 * GROUND.conductivitySm) / (freqHz / 1e6);
  const level =
    0.36 *
    ((earthRadiusM / 1000) * (freqHz / 1e6)) ** (-1 / 3) *
    ((GROUND.permittivity - 1) ** 2 + lost ** 2) ** (-1 / 4);
  return field === 'horizontal' ? level : level * Math.hypot(GROUND.permittivity, lost);
}

const distanceTermDb = (x: number): number =>
  x >= 1.6 ? 11 + 10 * Math.log10(x) - 17.6 * x : -20 * Math.log10(x) - 5.6488 * x ** 1.425;

function heightGainDb(b: number, k: number): number {
  const gain = b > 2 ? 17.6 * Math.sqrt(b - 1.1) - 5 * Math.log10(b - 1.1) - 8 : 20 * Math.log10(b + 0.1 * b ** 3);
  return Math.max(gain, 2 + 20 * Math.log10(k));
}
