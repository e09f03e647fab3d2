import { FREE_SPACE_IMPEDANCE, wavelength, waveNumber } from './constants.ts';
import { absoluteError, type Estimate, estimate, outside, relativeError } from './estimate.ts';
import { requireBetween, requirePermittivity, requirePositive } from './require.ts';

/** Where to feed for a resistance. Ohms and m. */
export interface FeedWanted {
  readonly wantedOhm: number;
  /** At the radiating edge. */
  readonly edgeOhm: number;
  /** Length along which the field swings by half a wave: with the end extensions for a probe, as cut for an inset. */
  readonly lengthM: number;
}

function checkFeed({ wantedOhm, edgeOhm, lengthM }: FeedWanted): void {
  requirePositive({ wantedOhm, edgeOhm, lengthM });
  requireBetween('wantedOhm', wantedOhm, { low: 0, high: edgeOhm, inclusive: true });
}

/** Resistance (ohm) seen `fromCentreM` from the centre: R_edge sin^2(pi x/L), L with the end extensions (Balanis, Antenna Theory, eq. 14-20a, counted from the centre). */
export function resistanceAt(fromCentreM: number, feed: Omit<FeedWanted, 'wantedOhm'>): number {
  const { edgeOhm, lengthM } = feed;
  requirePositive({ edgeOhm, lengthM });
  requireBetween('fromCentreM', fromCentreM, { low: -lengthM / 2, high: lengthM / 2, inclusive: true });
  return edgeOhm * Math.sin((Math.PI * fromCentreM) / lengthM) ** 2;
}

/** Where to put a probe. */
export interface ProbeWanted extends FeedWanted {
  /** Length as cut, m; `lengthM` is the one with the end extensions. */
  readonly cutLengthM: number;
}

/**
 * Distance (m) of a probe from the radiating edge as cut: half the cut length less (L/pi) asin sqrt(R/R_edge), with L the
 * length with end extensions. Negative when the wanted resistance lies in the fringe, beyond the metal: no probe gets it,
 * and `inRange` says so.
 */
export function probeFromEdge(feed: ProbeWanted): Estimate {
  checkFeed(feed);
  const { wantedOhm, edgeOhm, lengthM, cutLengthM } = feed;
  requirePositive({ cutLengthM });
  const fromCentre = (lengthM / Math.PI) * Math.asin(Math.sqrt(wantedOhm / edgeOhm));
  return estimate({
    value: cutLengthM / 2 - fromCentre,
    unit: 'm',
    // 15 % in the edge resistance, carried through the sine.
    error: absoluteError(probeSpread(feed), 'The edge resistance is known to about 15 %.'),
    leavesOut: ['The reactance of the probe.', 'The shift of the field by the probe itself.'],
    limits: [outside('The distance from the edge in mm', 1000 * (cutLengthM / 2 - fromCentre), 0)],
  });
}

function probeSpread({ wantedOhm, edgeOhm, lengthM }: FeedWanted): number {
  const at = (edge: number) => (lengthM / Math.PI) * Math.asin(Math.min(1, Math.sqrt(wantedOhm / edge)));
  return Math.max(at(edgeOhm * 0.85) - at(edgeOhm), at(edgeOhm) - at(edgeOhm * 1.15));
}

/**
 * Depth (m) of the inset of a feed line: (L/pi) acos sqrt(R/R_edge), from cos^2 along the cut length (Balanis, ibid.).
 *
 * The references contradict each other here: cos^2 with a shifted effective edge (Basilio et al., IEEE Trans. AP-49 (2001)),
 * cos^4 in other measurements (Ramesh & Yip). The error is the distance between both answers: treat the depth as a trim.
 */
export function insetDepth(feed: FeedWanted): Estimate {
  checkFeed(feed);
  const { wantedOhm, edgeOhm, lengthM } = feed;
  const ratio = wantedOhm / edgeOhm;
  const depth = (power: number) => (lengthM / Math.PI) * Math.acos(ratio ** (1 / power));
  return estimate({
    value: depth(2),
    unit: 'm',
    error: absoluteError(
      depth(2) - depth(4),
      'Measurements contradict each other: cosine squared and cosine to the fourth are both in print. This is their distance.',
    ),
    leavesOut: ['The notch beside the line, which shifts resonance and resistance.', 'The radiation of the line.'],
  });
}

/** A probe through the height under a patch. m. */
export interface Probe {
  readonly freqHz: number;
  readonly heightM: number;
  readonly radiusM: number;
  readonly permittivity: number;
}

/**
 * Series reactance (ohm) of a thin probe: (eta0 h/lambda)(ln(2/(k0 a sqrt(er))) - 0.57722) (Carver & Mink, IEEE Trans.
 * AP-29 (1981) 2-24; Balanis, Antenna Theory, ch. 14).
 */
export function probeReactance({ freqHz, heightM, radiusM, permittivity }: Probe): Estimate {
  requirePositive({ freqHz, heightM, radiusM });
  requirePermittivity({ permittivity });
  const a = waveNumber(freqHz) * radiusM * Math.sqrt(permittivity);
  const h = heightM / wavelength(freqHz);
  return estimate({
    value: FREE_SPACE_IMPEDANCE * h * (Math.log(2 / a) - 0.57722),
    unit: 'ohm',
    error: relativeError(0.2, 'Handbook form for a thin gap; from memory, not checked against a measurement.'),
    leavesOut: ['The place of the probe under the patch.', 'Washers, nuts and solder on the probe.'],
    limits: [
      outside('The height in wavelengths', h, 0, 0.06),
      outside('The radius in wavelengths of the filling', a / (2 * Math.PI), 0, 0.03),
    ],
  });
}

/** Inductance (H) of the same probe: its reactance over 2 pi f. */
export const probeInductance = (probe: Probe): number => probeReactance(probe).value / (2 * Math.PI * probe.freqHz);
