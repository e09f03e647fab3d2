import { besselJ } from './bessel.ts';
import { FREE_SPACE_IMPEDANCE, waveNumber } from './constants.ts';
import { type Estimate, estimate, outside, relativeError } from './estimate.ts';
import { integrate } from './quadrature.ts';
import { requirePositive } from './require.ts';

/** The two radiating edges of a patch as slots in a plane. */
export interface PatchSlots {
  readonly freqHz: number;
  /** Length of each slot: the width of the patch, m. */
  readonly widthM: number;
  /** Distance of the slots: the length of the patch, m. */
  readonly lengthM: number;
}

/** [sin(a u)/u]^2 (1 - u^2), u the cosine of the angle from the slot: a^2 at u = 0. */
function slotPower(a: number, u: number): number {
  const ratio = Math.abs(u) < 1e-8 ? a : Math.sin(a * u) / u;
  return ratio * ratio * (1 - u * u);
}

const perImpedance = 1 / (Math.PI * FREE_SPACE_IMPEDANCE);

/**
 * Conductance (S) of one slot: (1/120 pi^2) times the integral over 0..pi of [sin(k0 W cos(t)/2)/cos(t)]^2 sin^3(t)
 * (Balanis, Antenna Theory, eq. 14-12; 1/(pi eta0) stands for the rounded 1/(120 pi^2)). Tends to (W/lambda)^2/90
 * for a short and W/(120 lambda) for a long slot.
 */
export function slotConductance(freqHz: number, widthM: number): number {
  requirePositive({ freqHz, widthM });
  const a = (waveNumber(freqHz) * widthM) / 2;
  return perImpedance * integrate((u) => slotPower(a, u), { from: -1, to: 1 });
}

/** Mutual conductance (S) of the two slots: the same with J0(k0 L sin t) inside (ibid., eq. 14-18a). */
export function mutualSlotConductance({ freqHz, widthM, lengthM }: PatchSlots): number {
  requirePositive({ freqHz, widthM, lengthM });
  const k = waveNumber(freqHz);
  const power = (u: number) => slotPower((k * widthM) / 2, u) * besselJ(0, k * lengthM * Math.sqrt(1 - u * u));
  return perImpedance * integrate(power, { from: -1, to: 1 });
}

const SLOT_ERROR = relativeError(
  0.15,
  'Against the resistance from stored energy and loss: 4 to 9 % for patches over air; handbook closed forms differ by 7 %.',
);

/**
 * Resistance (ohm) at the edge, 1/(2 (G1 + G12)), of the lowest mode (ibid., eq. 14-17). It knows no loss: on a lossy
 * laminate it is far too high (2.4 times on FR-4); take `edgeResistance` of `patchQuality` there.
 */
export function slotEdgeResistance(slots: PatchSlots): Estimate {
  const g = slotConductance(slots.freqHz, slots.widthM) + mutualSlotConductance(slots);
  return estimate({
    value: 1 / (2 * g),
    unit: 'ohm',
    error: SLOT_ERROR,
    leavesOut: ['Loss in metal and dielectric.', 'Surface waves.', 'The edge of the reflector.'],
    limits: [outside('The width over the length', slots.widthM / slots.lengthM, 0.6, 1.6)],
  });
}
