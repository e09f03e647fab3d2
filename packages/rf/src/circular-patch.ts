import { besselJ } from './bessel.ts';
import { MAGNETIC_CONSTANT, SPEED_OF_LIGHT, toDecibels, wavelength, waveNumber } from './constants.ts';
import { absoluteError, type Estimate, estimate, outside, relativeError } from './estimate.ts';
import { integrate } from './quadrature.ts';
import { requireBetween, requireNotNegative, requirePermittivity, requirePositive } from './require.ts';
import { findCrossing } from './solve.ts';

/** A round patch. m. */
export interface CircularPatch {
  readonly radiusM: number;
  readonly heightM: number;
  readonly permittivity: number;
}

/** First zero of the slope of J1 (Abramowitz & Stegun, table 9.5). */
const FIRST_ROOT = 1.84118378134;

/** h/(pi a er) twice over, with the fringe's logarithm: what the square of the radius grows by. */
function fringe({ radiusM, heightM, permittivity }: CircularPatch): number {
  const logarithm = Math.log((Math.PI * radiusM) / (2 * heightM)) + 1.7726;
  return ((2 * heightM) / (Math.PI * radiusM * permittivity)) * logarithm;
}

/**
 * Radius (m) with its fringe, a sqrt(1 + (2h/(pi a er))(ln(pi a/2h) + 1.7726)) (L. C. Shen et al., IEEE Trans. AP-25 (1977)
 * 595-596; Balanis, Antenna Theory, eq. 14-67). For air it is the exact fringe of a static disc far wider than its height.
 */
export function effectiveRadius(patch: CircularPatch): number {
  const { radiusM, heightM, permittivity } = patch;
  requirePositive({ radiusM, heightM });
  requirePermittivity({ permittivity });
  return radiusM * Math.sqrt(1 + fringe(patch));
}

function resonanceHz(patch: CircularPatch): number {
  return (FIRST_ROOT * SPEED_OF_LIGHT) / (2 * Math.PI * effectiveRadius(patch) * Math.sqrt(patch.permittivity));
}

const LEAVES_OUT = [
  'The thickness of the sheet, which lowers the frequency.',
  'The reflector is taken as endless.',
  'The probe, spacers, parasitic patches and a cover are not in it.',
];

const resonanceError = (permittivity: number) =>
  permittivity < 2
    ? relativeError(
        0.04,
        'By analogy with rectangular patches over air, where forms of this age are 2 to 4 % high; no check.',
      )
    : relativeError(0.017, 'Thirteen measured patches, permittivity 2.3 to 4.6: 0.6 % on average, 1.7 % at most.');

const limits = ({ radiusM, heightM, permittivity }: CircularPatch) => [
  outside('The height over the radius', heightM / radiusM, 0, permittivity < 2 ? 0.2 : 0.31),
  permittivity < 2 ? undefined : outside('The permittivity', permittivity, 2, 10.5),
];

/** Resonant frequency (Hz) of the lowest mode, 1.8412 c/(2 pi a_e sqrt(er)) (Balanis, ibid., eq. 14-66). */
export function circularPatchResonance(patch: CircularPatch): Estimate {
  return estimate({
    value: resonanceHz(patch),
    unit: 'Hz',
    error: resonanceError(patch.permittivity),
    leavesOut: LEAVES_OUT,
    limits: limits(patch),
  });
}

/**
 * Radius (m) for a resonance: the exact inverse of `circularPatchResonance`, by iteration from the handbook's explicit
 * formula (`circularPatchRadiusExplicit`).
 */
export function circularPatchRadius(
  freqHz: number,
  { heightM, permittivity }: Omit<CircularPatch, 'radiusM'>,
): Estimate {
  const whole = (FIRST_ROOT * wavelength(freqHz)) / (2 * Math.PI * Math.sqrt(permittivity));
  let radiusM = circularPatchRadiusExplicit(freqHz, { heightM, permittivity });
  for (let step = 0; step < 100; step += 1) {
    radiusM = whole / Math.sqrt(1 + Math.max(0, fringe({ radiusM, heightM, permittivity })));
  }
  const stated = resonanceError(permittivity);
  return estimate({
    value: radiusM,
    unit: 'm',
    error: relativeError((stated.size * whole) / radiusM, stated.origin),
    leavesOut: LEAVES_OUT,
    limits: limits({ radiusM, heightM, permittivity }),
  });
}

/** The handbook's one-step radius, m: F/sqrt(1 + (2h/(pi er F))(ln(pi F/2h) + 1.7726)), F = 8.791e9/(f sqrt(er)) cm (Balanis, ibid., eq. 14-69). */
export function circularPatchRadiusExplicit(
  freqHz: number,
  { heightM, permittivity }: Omit<CircularPatch, 'radiusM'>,
): number {
  requirePositive({ freqHz, heightM });
  requirePermittivity({ permittivity });
  const f = 8.791e7 / (freqHz * Math.sqrt(permittivity));
  return f / Math.sqrt(1 + Math.max(0, fringe({ radiusM: f, heightM, permittivity })));
}

/** Radiation conductance (S) at the edge: ((k0 a_e)^2/480) times the integral of (J0 - J2)^2 + cos^2 t (J0 + J2)^2, sin t dt over 0..pi/2 (ibid., eq. 14-72). */
export function circularPatchConductance(freqHz: number, effectiveRadiusM: number): number {
  requirePositive({ freqHz, effectiveRadiusM });
  const ka = waveNumber(freqHz) * effectiveRadiusM;
  const power = (t: number) => {
    const x = ka * Math.sin(t);
    const j0 = besselJ(0, x);
    const j2 = besselJ(2, x);
    return ((j0 - j2) ** 2 + (Math.cos(t) * (j0 + j2)) ** 2) * Math.sin(t);
  };
  return (ka ** 2 / 480) * integrate(power, { from: 0, to: Math.PI / 2 });
}

/** Directivity over an endless plane: (k0 a_e)^2/(120 G) (ibid., eq. 14-80). 3 (4.77 dBi) for a very small patch. */
export function circularPatchDirectivity(freqHz: number, effectiveRadiusM: number): Estimate {
  const g = circularPatchConductance(freqHz, effectiveRadiusM);
  return estimate({
    value: toDecibels((waveNumber(freqHz) * effectiveRadiusM) ** 2 / (120 * g)),
    unit: 'dBi',
    error: absoluteError(1, 'The edge of a reflector of usual size moves it by about 1 dB (from memory).'),
    leavesOut: ['Loss.', 'The edge of the reflector.'],
  });
}

/** A round patch with what it loses. */
export interface LossyCircularPatch extends CircularPatch {
  readonly freqHz: number;
  readonly lossTangent: number;
  /** S/m, of patch and plane. */
  readonly conductivity: number;
}

/**
 * Resistance (ohm) at the edge: 1/(G_rad + G_c + G_d), G_c = pi (pi mu0 f)^(-3/2) ((k a_e)^2 - 1)/(4 h^2 sqrt(sigma)),
 * G_d = tan(delta) ((k a_e)^2 - 1)/(4 mu0 h f), k in the dielectric (ibid., eq. 14-76 to 14-79).
 */
export function circularPatchEdgeResistance(patch: LossyCircularPatch): Estimate {
  const { freqHz, heightM, permittivity, lossTangent, conductivity } = patch;
  requirePositive({ freqHz, conductivity });
  requireNotNegative({ lossTangent });
  const radius = effectiveRadius(patch);
  const field = (waveNumber(freqHz) * Math.sqrt(permittivity) * radius) ** 2 - 1;
  const muF = MAGNETIC_CONSTANT * freqHz;
  const metal = (Math.PI * (Math.PI * muF) ** -1.5 * field) / (4 * heightM ** 2 * Math.sqrt(conductivity));
  const dielectric = (lossTangent * field) / (4 * muF * heightM);
  return estimate({
    value: 1 / (circularPatchConductance(freqHz, radius) + metal + dielectric),
    unit: 'ohm',
    error: relativeError(0.2, 'Cavity model of a handbook, from memory; no measured resistance at hand.'),
    leavesOut: ['Surface waves.', 'The probe.', 'The edge of the reflector.'],
    limits: limits(patch),
  });
}

/** Where a probe is wanted under a round patch. ohm and m. */
export interface CircularFeedWanted {
  readonly wantedOhm: number;
  readonly edgeOhm: number;
  readonly effectiveRadiusM: number;
}

/** x between 0 and the first turning point at which J1 has risen to the root of this share of its peak. */
function turnOf(share: number): number {
  if (share === 1) return FIRST_ROOT;
  const goal = Math.sqrt(share) * besselJ(1, FIRST_ROOT);
  return findCrossing((x) => besselJ(1, x) - goal, { low: 0, high: FIRST_ROOT });
}

/** Distance (m) of a probe from the centre for a resistance: R(r) = R(a) J1^2(k r)/J1^2(k a_e), k a_e = 1.8412 (ibid., eq. 14-82). */
export function circularProbeFromCentre(feed: CircularFeedWanted): Estimate {
  const { wantedOhm, edgeOhm, effectiveRadiusM } = feed;
  requirePositive({ wantedOhm, edgeOhm, effectiveRadiusM });
  requireBetween('wantedOhm', wantedOhm, { low: 0, high: edgeOhm, inclusive: true });
  const at = (edge: number) => (turnOf(Math.min(1, wantedOhm / edge)) / FIRST_ROOT) * effectiveRadiusM;
  const here = at(edgeOhm);
  return estimate({
    value: here,
    unit: 'm',
    error: absoluteError(
      Math.max(at(edgeOhm * 0.8) - here, here - at(edgeOhm * 1.2)),
      'The edge resistance is known to about 20 %.',
    ),
    leavesOut: ['The reactance of the probe.', 'The shift of the field by the probe itself.'],
  });
}
