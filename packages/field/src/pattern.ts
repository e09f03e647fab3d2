import type { Direction, FarField } from './far-field.ts';
import type { Axis } from './update.ts';

/** Power over direction at one frequency and for one driven port. */
export interface Pattern {
  readonly freqHz: number;
  readonly port: number;
  /** Rings of theta (rad, rising) by columns of phi (rad, from 0, rising). */
  readonly theta: readonly number[];
  readonly phi: readonly number[];
  /** Directivity of each polarisation, as a ratio; index ring * columns + column. */
  readonly thetaPart: Float64Array;
  readonly phiPart: Float64Array;
  /** E_theta times the conjugate of E_phi on the same scale: with the two parts it tells every polarisation. */
  readonly mixRe: Float64Array;
  readonly mixIm: Float64Array;
  /** Largest directivity over the sphere, dBi, and where. */
  readonly directivityDbi: number;
  readonly peak: Direction;
  /** W for the excitation that the fields belong to: the integral of the pattern. */
  readonly radiated: number;
}

/** Net of directions over the sphere, or over the half above a plane of metal across z. */
export function directionNet(stepDegrees: number, half: boolean) {
  const rings = Math.round((half ? 90 : 180) / stepDegrees);
  const columns = Math.round(360 / stepDegrees);
  const theta = Array.from({ length: rings + 1 }, (_, n) => (n * stepDegrees * Math.PI) / 180);
  const phi = Array.from({ length: columns }, (_, n) => (n * stepDegrees * Math.PI) / 180);
  const directions = theta.flatMap((t) => phi.map((p): Direction => ({ theta: t, phi: p })));
  return { theta, phi, directions };
}

/** Whether the mirror images of all directions of such a net belong to it. */
export function isNetMirrored(stepDegrees: number): boolean {
  const columns = Math.round(360 / stepDegrees);
  return columns % 2 === 0 && Math.abs(columns * stepDegrees - 360) < 1e-9;
}

/** The pattern of the mirror image: power of each polarisation stays, directions change. For nets that mirror. */
export function mirrorPattern(
  pattern: Pattern,
  { flips, port }: { readonly flips: readonly Axis[]; readonly port: number },
): Pattern {
  const { theta, phi, thetaPart, phiPart, mixRe, mixIm, peak } = pattern;
  const [rings, columns] = [theta.length, phi.length];
  const ringOf = (ring: number) => (flips.includes('z') ? rings - 1 - ring : ring);
  const columnOf = (column: number) => {
    const acrossX = flips.includes('x') ? columns / 2 - column : column;
    return ((flips.includes('y') ? -acrossX : acrossX) + 2 * columns) % columns;
  };
  // A mirror across x or y turns the unit vector along phi round, one across z that along theta.
  const sense = flips.length % 2 === 0 ? 1 : -1;
  const moved = (part: Float64Array) =>
    part.map((_, n) => part[ringOf(Math.floor(n / columns)) * columns + columnOf(n % columns)] as number);
  return {
    ...pattern,
    port,
    thetaPart: moved(thetaPart),
    phiPart: moved(phiPart),
    mixRe: moved(mixRe).map((value) => sense * value),
    mixIm: moved(mixIm).map((value) => sense * value),
    peak: {
      theta: theta[ringOf(theta.indexOf(peak.theta))] as number,
      phi: phi[columnOf(phi.indexOf(peak.phi))] as number,
    },
  };
}

/** W/sr of each polarisation: |E|^2 / (2 eta). */
const intensity = (re: number, im: number) => (re * re + im * im) / (2 * 376.730313);

const mixedRe = (f: FarField) => (f.thetaRe * f.phiRe + f.thetaIm * f.phiIm) / (2 * 376.730313);
const mixedIm = (f: FarField) => (f.thetaIm * f.phiRe - f.thetaRe * f.phiIm) / (2 * 376.730313);

export interface PatternRequest {
  readonly freqHz: number;
  readonly port: number;
  readonly theta: readonly number[];
  readonly phi: readonly number[];
  readonly fields: readonly FarField[];
}

/** Directivity over the net: 4 pi U over the integral of U, by the trapezoidal rule in theta and phi. */
export function makePattern({ freqHz, port, theta, phi, fields }: PatternRequest): Pattern {
  const thetaU = fields.map((f) => intensity(f.thetaRe, f.thetaIm));
  const phiU = fields.map((f) => intensity(f.phiRe, f.phiIm));
  const radiated = integrate(theta, phi, (n) => (thetaU[n] as number) + (phiU[n] as number));
  const ratio = (values: readonly number[]) => Float64Array.from(values, (u) => (4 * Math.PI * u) / radiated);
  const [thetaPart, phiPart] = [ratio(thetaU), ratio(phiU)];
  const [mixRe, mixIm] = [ratio(fields.map(mixedRe)), ratio(fields.map(mixedIm))];
  let best = 0;
  for (let n = 0; n < fields.length; n++) {
    if ((thetaPart[n] as number) + (phiPart[n] as number) > (thetaPart[best] as number) + (phiPart[best] as number))
      best = n;
  }
  return {
    freqHz,
    port,
    theta,
    phi,
    thetaPart,
    phiPart,
    mixRe,
    mixIm,
    directivityDbi: decibels((thetaPart[best] as number) + (phiPart[best] as number)),
    peak: { theta: theta[Math.floor(best / phi.length)] as number, phi: phi[best % phi.length] as number },
    radiated,
  };
}

/** A polarisation as the parts of a unit vector along theta and phi. */
export interface Polarisation {
  readonly thetaRe: number;
  readonly thetaIm: number;
  readonly phiRe: number;
  readonly phiIm: number;
}

/** Directivity of one polarisation in the direction of this index, as a ratio: |E . p*|^2. */
export function polarisedPart(pattern: Pattern, index: number, p: Polarisation): number {
  const [theta, phi] = [pattern.thetaPart[index] as number, pattern.phiPart[index] as number];
  // Re(p_theta* p_phi E_theta E_phi*).
  const re = p.thetaRe * p.phiRe + p.thetaIm * p.phiIm;
  const im = p.thetaRe * p.phiIm - p.thetaIm * p.phiRe;
  const mixed = re * (pattern.mixRe[index] as number) - im * (pattern.mixIm[index] as number);
  return Math.max(0, (p.thetaRe ** 2 + p.thetaIm ** 2) * theta + (p.phiRe ** 2 + p.phiIm ** 2) * phi + 2 * mixed);
}

export const decibels = (ratio: number): number => 10 * Math.log10(ratio);

/** Exact weights of the rings: the integral of sin(theta) over hat functions, which sums to the whole sphere. */
function integrate(theta: readonly number[], phi: readonly number[], value: (n: number) => number): number {
  const step = (theta[1] as number) - (theta[0] as number);
  const columnWidth = (2 * Math.PI) / phi.length;
  return theta.reduce((total, t, ring) => {
    const isEnd = ring === 0 || ring === theta.length - 1;
    const pole = ring === 0 || (isEnd && Math.abs(Math.sin(t)) < 1e-9);
    const weight = pole
      ? 1 - Math.sin(step) / step
      : isEnd
        ? halfRing(t, step)
        : (Math.sin(t) * 2 * (1 - Math.cos(step))) / step;
    const row = phi.reduce((sum, _, column) => sum + value(ring * phi.length + column), 0);
    return total + weight * columnWidth * row;
  }, 0);
}

/** Last ring of a half sphere: the hat function on one side only. */
function halfRing(t: number, step: number): number {
  const from = t - step;
  return (Math.sin(t) - Math.sin(from) - step * Math.cos(t)) / step;
}

/** A half circle of theta on one side of the axis and back on the other: -180 to 180 degrees through one phi. */
export interface Cut {
  /** rad, rising from -pi to pi (or -pi/2 to pi/2 over a plane of metal). */
  readonly angle: readonly number[];
  /** Directivity, dBi. */
  readonly dbi: readonly number[];
}

/** The plane through the z axis at this phi (rad; the nearest column is taken). */
export function cutThrough(pattern: Pattern, phi: number): Cut {
  const columns = pattern.phi.length;
  const column = Math.round((phi / (2 * Math.PI)) * columns) % columns;
  const opposite = (column + Math.round(columns / 2)) % columns;
  const at = (ring: number, c: number) => {
    const n = ring * columns + c;
    return decibels((pattern.thetaPart[n] as number) + (pattern.phiPart[n] as number));
  };
  const rings = [...pattern.theta.keys()];
  return {
    angle: [
      ...rings
        .slice(1)
        .reverse()
        .map((ring) => -(pattern.theta[ring] as number)),
      ...pattern.theta,
    ],
    dbi: [
      ...rings
        .slice(1)
        .reverse()
        .map((ring) => at(ring, opposite)),
      ...rings.map((ring) => at(ring, column)),
    ],
  };
}

/** Width, rad, of the main lobe of a cut at 3.01 dB below its top; undefined where it does not fall so far. */
export function beamwidth({ angle, dbi }: Cut): number | undefined {
  const top = dbi.indexOf(Math.max(...dbi));
  const level = (dbi[top] as number) - 10 * Math.log10(2);
  const edge = (step: 1 | -1) => {
    for (let n = top; n + step >= 0 && n + step < dbi.length; n += step) {
      const [here, next] = [dbi[n] as number, dbi[n + step] as number];
      if (next > level) continue;
      return (
        (angle[n] as number) + ((here - level) / (here - next)) * ((angle[n + step] as number) - (angle[n] as number))
      );
    }
    return undefined;
  };
  const [low, high] = [edge(-1), edge(1)];
  return low === undefined || high === undefined ? undefined : high - low;
}

/** dB: a lobe is parted from the main beam where the cut falls at least this far below the lobe's own top (common practice, no source). */
const LOBE_DIP_DB = 3;

/**
 * dB between the top of the main beam and the highest lobe beside it; undefined when there is none. A ripple of the main beam is no
 * lobe: on every way from a lobe to the top the cut falls 3 dB below the lobe. Once round the circle there are two ways.
 */
export function sideLobe({ angle, dbi }: Cut): number | undefined {
  const isCircle = (angle.at(-1) ?? 0) - (angle[0] ?? 0) > 2 * Math.PI - 1e-6;
  const levels = isCircle ? dbi.slice(1) : dbi;
  const top = levels.indexOf(Math.max(...levels));
  // From the top round to the top again; an open cut goes on beyond its ends with nothing.
  const turned = [...levels.slice(top), ...(isCircle ? [] : [-Infinity]), ...levels.slice(0, top + 1)];
  const lobes = turned.filter((level, n) => {
    const [before, after] = [turned[n - 1] ?? Infinity, turned[n + 1] ?? Infinity];
    if (!(level > before && level >= after)) return false;
    const dips = [turned.slice(0, n), turned.slice(n + 1)].map((way) => Math.min(...way));
    return dips.every((dip) => dip <= level - LOBE_DIP_DB);
  });
  return lobes.length === 0 ? undefined : (levels[top] as number) - Math.max(...lobes);
}

/** dB between the top and the opposite direction. */
export function frontToBack(pattern: Pattern): number {
  const columns = pattern.phi.length;
  const ring = pattern.theta.length - 1 - pattern.theta.indexOf(pattern.peak.theta);
  const column = (pattern.phi.indexOf(pattern.peak.phi) + Math.round(columns / 2)) % columns;
  const n = ring * columns + column;
  return pattern.directivityDbi - decibels((pattern.thetaPart[n] as number) + (pattern.phiPart[n] as number));
}

/** dB between the two polarisations at the peak: the stronger over the weaker. */
export function polarisationRatio(pattern: Pattern): number {
  const n = pattern.theta.indexOf(pattern.peak.theta) * pattern.phi.length + pattern.phi.indexOf(pattern.peak.phi);
  return Math.abs(decibels((pattern.thetaPart[n] as number) / (pattern.phiPart[n] as number)));
}
