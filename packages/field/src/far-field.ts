import { FREE_SPACE_IMPEDANCE, SPEED_OF_LIGHT } from './constants.ts';
import type { Grid } from './grid.ts';
import type { ComplexField, Face, FaceFields } from './surface-sampler.ts';
import { AXES, type Axis } from './update.ts';

/** A direction in the usual angles: theta from +z, phi from +x towards +y, rad. */
export interface Direction {
  readonly theta: number;
  readonly phi: number;
}

/** Field far away in one direction, V (times the distance and exp(jkr)): components along theta and phi. */
export interface FarField {
  readonly thetaRe: number;
  readonly thetaIm: number;
  readonly phiRe: number;
  readonly phiIm: number;
}

/** A plane in which the sources mirror: of symmetry, or a wall of metal. */
export interface Mirror {
  readonly axis: Axis;
  readonly at: number;
  readonly kind: 'metal' | 'magnetic';
}

/** W, through the surface outwards: half the real part of E x H*. Fields of an excitation that carries 1 V s. */
export function radiatedPower(grid: Grid, faces: readonly FaceFields[]): number {
  return faces.reduce((sum, fields) => sum + facePower(grid, fields), 0);
}

/** u x v points along the normal for x and z, against it for y. */
const handed = (normal: Axis) => (normal === 'y' ? -1 : 1);

function facePower(grid: Grid, { face, eu, ev, hu, hv }: FaceFields): number {
  let power = 0;
  forEachCell(grid, face, (n, area) => {
    const dot = (a: ComplexField, b: ComplexField) =>
      (a.re[n] as number) * (b.re[n] as number) + (a.im[n] as number) * (b.im[n] as number);
    power += (area / 2) * (dot(eu, hv) - dot(ev, hu));
  });
  return power * face.outward * handed(face.normal);
}

function forEachCell(grid: Grid, face: Face, visit: (index: number, area: number) => void): void {
  const [u, v] = [grid.lines[face.u], grid.lines[face.v]];
  const count = face.rangeU[1] - face.rangeU[0];
  for (let b = face.rangeV[0]; b < face.rangeV[1]; b++) {
    for (let a = face.rangeU[0]; a < face.rangeU[1]; a++) {
      const area = ((u[a + 1] as number) - (u[a] as number)) * ((v[b + 1] as number) - (v[b] as number));
      visit((b - face.rangeV[0]) * count + a - face.rangeU[0], area);
    }
  }
}

/** Six running sums: electric and magnetic current moments N and L, each with x, y, z; real and imaginary parts. */
type Moments = Float64Array;

export interface FarFieldRequest {
  readonly grid: Grid;
  readonly faces: readonly FaceFields[];
  readonly mirrors: readonly Mirror[];
  readonly freqHz: number;
  readonly directions: readonly Direction[];
}

/**
 * Far field of the equivalent currents J = n x H and M = -n x E on the surface (C. A. Balanis, Antenna Theory, 4th ed.,
 * section 12.3: E_theta = -(jk/4 pi)(L_phi + eta N_theta), E_phi = (jk/4 pi)(L_theta - eta N_phi)). Mirrored parts of
 * the surface add the images of the currents.
 */
export function farField({ grid, faces, mirrors, freqHz, directions }: FarFieldRequest): FarField[] {
  const k = (2 * Math.PI * freqHz) / SPEED_OF_LIGHT;
  const images = mirrorImages(mirrors);
  const momentsOf = rememberedMoments(grid, faces, k);
  return directions.map((direction) => {
    const unit = unitVector(direction);
    const total: Moments = new Float64Array(12);
    // The image of a source seen from here looks like the source seen from the mirrored direction.
    for (const image of images)
      addImage(total, momentsOf(unit.map((value, n) => value * sign(image.flip, n))), image, unit, k);
    return fieldOf(total, k, direction);
  });
}

const sign = (values: readonly number[], n: number) => values[n] as number;

function addImage(total: Moments, own: Moments, image: Image, unit: readonly number[], k: number): void {
  const phase = k * unit.reduce((sum, value, n) => sum + value * sign(image.offset, n), 0);
  const [c, s] = [Math.cos(phase), Math.sin(phase)];
  for (let m = 0; m < 6; m++) {
    const weight = sign(m < 3 ? image.electric : image.magnetic, m % 3);
    const [re, im] = [own[2 * m] as number, own[2 * m + 1] as number];
    total[2 * m] = (total[2 * m] as number) + weight * (re * c - im * s);
    total[2 * m + 1] = (total[2 * m + 1] as number) + weight * (re * s + im * c);
  }
}

/** Moments of the surface itself in a direction, each direction once. */
function rememberedMoments(grid: Grid, faces: readonly FaceFields[], k: number): (unit: readonly number[]) => Moments {
  const known = new Map<string, Moments>();
  return (unit) => {
    const key = unit.map((value) => Math.round(value * 1e7)).join();
    const found = known.get(key);
    if (found) return found;
    const moments: Moments = new Float64Array(12);
    for (const fields of faces) addFace(grid, fields, { k, unit, moments });
    known.set(key, moments);
    return moments;
  };
}

/** Sign of each coordinate and offset of the mirror, and signs of J and M. */
interface Image {
  readonly flip: readonly [number, number, number];
  readonly offset: readonly [number, number, number];
  readonly electric: readonly [number, number, number];
  readonly magnetic: readonly [number, number, number];
}

function mirrorImages(mirrors: readonly Mirror[]): Image[] {
  let images: Image[] = [{ flip: [1, 1, 1], offset: [0, 0, 0], electric: [1, 1, 1], magnetic: [1, 1, 1] }];
  for (const mirror of mirrors) images = [...images, ...images.map((image) => mirrored(image, mirror))];
  return images;
}

/** Over metal currents along it turn round and magnetic ones stay; over a magnetic plane the other way. */
function mirrored(image: Image, { axis, at, kind }: Mirror): Image {
  const m = AXES.indexOf(axis);
  const across = (value: number) => (n: number) => (n === m ? value : -value);
  const electric = across(kind === 'metal' ? 1 : -1);
  const magnetic = across(kind === 'metal' ? -1 : 1);
  const map = (values: readonly number[], change: (value: number, n: number) => number) =>
    values.map(change) as unknown as readonly [number, number, number];
  return {
    flip: map(image.flip, (value, n) => (n === m ? -value : value)),
    offset: map(image.offset, (value, n) => (n === m ? 2 * at - value : value)),
    electric: map(image.electric, (value, n) => value * electric(n)),
    magnetic: map(image.magnetic, (value, n) => value * magnetic(n)),
  };
}

interface FaceSum {
  readonly k: number;
  readonly unit: readonly number[];
  readonly moments: Moments;
}

const unitVector = ({ theta, phi }: Direction) => [
  Math.sin(theta) * Math.cos(phi),
  Math.sin(theta) * Math.sin(phi),
  Math.cos(theta),
];

/** exp(jk r.r') is a product of one factor for each axis: sum along u first, then along v. */
function addFace(grid: Grid, fields: FaceFields, { k, unit, moments }: FaceSum): void {
  const { face } = fields;
  const phase = (axis: Axis, place: number) => k * (unit[AXES.indexOf(axis)] as number) * place;
  const factorsU = cellFactors(grid, face.u, face.rangeU, phase);
  const factorsV = cellFactors(grid, face.v, face.rangeV, phase);
  const whole = phase(face.normal, grid.lines[face.normal][face.at] as number);
  const [c, s] = [Math.cos(whole), Math.sin(whole)];
  const turn = face.outward * handed(face.normal);
  // With u x v along n: J = n x H has J_u = -H_v, J_v = H_u; M = -n x E has M_u = E_v, M_v = -E_u.
  const parts = [
    [fields.hv, -turn, AXES.indexOf(face.u)],
    [fields.hu, turn, AXES.indexOf(face.v)],
    [fields.ev, turn, 3 + AXES.indexOf(face.u)],
    [fields.eu, -turn, 3 + AXES.indexOf(face.v)],
  ] as const;
  for (const [field, weight, target] of parts) {
    const [re, im] = doubleSum(field, factorsU, factorsV);
    moments[2 * target] = (moments[2 * target] as number) + weight * (re * c - im * s);
    moments[2 * target + 1] = (moments[2 * target + 1] as number) + weight * (re * s + im * c);
  }
}

/** Phase factor times cell length in the middle of each cell. */
function cellFactors(
  grid: Grid,
  axis: Axis,
  [from, to]: readonly [number, number],
  phase: (axis: Axis, place: number) => number,
): ComplexField {
  const factors = { re: new Float64Array(to - from), im: new Float64Array(to - from) };
  for (let n = from; n < to; n++) {
    const [low, high] = [grid.lines[axis][n] as number, grid.lines[axis][n + 1] as number];
    const angle = phase(axis, (low + high) / 2);
    factors.re[n - from] = (high - low) * Math.cos(angle);
    factors.im[n - from] = (high - low) * Math.sin(angle);
  }
  return factors;
}

function doubleSum(field: ComplexField, u: ComplexField, v: ComplexField): readonly [number, number] {
  const count = u.re.length;
  let re = 0;
  let im = 0;
  for (let b = 0; b < v.re.length; b++) {
    let rowRe = 0;
    let rowIm = 0;
    for (let a = 0, n = b * count; a < count; a++, n++) {
      const fieldRe = field.re[n] as number;
      const fieldIm = field.im[n] as number;
      const factorRe = u.re[a] as number;
      const factorIm = u.im[a] as number;
      rowRe += fieldRe * factorRe - fieldIm * factorIm;
      rowIm += fieldRe * factorIm + fieldIm * factorRe;
    }
    re += rowRe * (v.re[b] as number) - rowIm * (v.im[b] as number);
    im += rowRe * (v.im[b] as number) + rowIm * (v.re[b] as number);
  }
  return [re, im];
}

function fieldOf(m: Moments, k: number, { theta, phi }: Direction): FarField {
  const [ct, st, cp, sp] = [Math.cos(theta), Math.sin(theta), Math.cos(phi), Math.sin(phi)];
  const part = (offset: number) => {
    const [nx, ny, nz, lx, ly, lz] = [0, 1, 2, 3, 4, 5].map((n) => m[2 * n + offset] as number) as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    return {
      nTheta: nx * ct * cp + ny * ct * sp - nz * st,
      nPhi: -nx * sp + ny * cp,
      lTheta: lx * ct * cp + ly * ct * sp - lz * st,
      lPhi: -lx * sp + ly * cp,
    };
  };
  const [re, im] = [part(0), part(1)];
  const scale = k / (4 * Math.PI);
  const eta = FREE_SPACE_IMPEDANCE;
  // Times -j and +j: (re + j im)(-j) = im - j re.
  return {
    thetaRe: scale * (im.lPhi + eta * im.nTheta),
    thetaIm: -scale * (re.lPhi + eta * re.nTheta),
    phiRe: -scale * (im.lTheta - eta * im.nPhi),
    phiIm: scale * (re.lTheta - eta * re.nPhi),
  };
}
