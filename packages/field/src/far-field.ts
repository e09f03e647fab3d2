import { FREE_SPACE_IMPEDANCE, SPEED_OF_LIGHT } from './constants.ts';
import type { Grid } from './grid.ts';
import { handed, type NodeCurrent, type NodeFace, nodeFace } from './surface-nodes.ts';
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
  /** Quickest when directions of the same theta follow each other. */
  readonly directions: readonly Direction[];
}

/**
 * Far field of the equivalent currents J = n x H and M = -n x E on the surface (C. A. Balanis, Antenna Theory, 4th ed.,
 * section 12.3: E_theta = -(jk/4 pi)(L_phi + eta N_theta), E_phi = (jk/4 pi)(L_theta - eta N_phi)). Mirrored parts of
 * the surface add the images of the currents.
 *
 * exp(jk r.r') is a product of one factor for each axis, and so are the signs of the images: the images of a current are
 * summed in the factors of each axis, and the factors of z once for all directions of one theta.
 */
export function farField({ grid, faces, mirrors, freqHz, directions }: FarFieldRequest): FarField[] {
  const k = (2 * Math.PI * freqHz) / SPEED_OF_LIGHT;
  const along = (axis: Axis) => imagesAlong(mirrors, axis);
  const images: AxisImages = { x: along('x'), y: along('y'), z: along('z') };
  const sums = faces.map((fields) => faceSum(nodeFace(grid, fields, k), images, grid));
  const moments: Moments = new Float64Array(12);
  return directions.map((direction) => {
    const unit = unitVector(direction);
    moments.fill(0);
    for (const add of sums) add(moments, { x: k * unit.x, y: k * unit.y, z: k * unit.z });
    return fieldOf(moments, k, direction);
  });
}

/** Where the images of a place along one axis lie, sense * place + offset, and with which signs they count. */
interface AxisImage {
  readonly sense: number;
  readonly offset: number;
  /** Of electric currents along the axis and of magnetic ones across it. */
  readonly even: number;
  /** Of electric currents across the axis and of magnetic ones along it. */
  readonly odd: number;
}

type AxisImages = Readonly<Record<Axis, readonly AxisImage[]>>;

/** Over metal currents along it turn round and magnetic ones stay; over a magnetic plane the other way. */
function imagesAlong(mirrors: readonly Mirror[], axis: Axis): AxisImage[] {
  let images: AxisImage[] = [{ sense: 1, offset: 0, even: 1, odd: 1 }];
  for (const { at, kind } of mirrors.filter((mirror) => mirror.axis === axis)) {
    const sign = kind === 'metal' ? 1 : -1;
    const mirrored = images.map(({ sense, offset, even, odd }) => ({
      sense: -sense,
      offset: 2 * at - offset,
      even: sign * even,
      odd: -sign * odd,
    }));
    images = [...images, ...mirrored];
  }
  return images;
}

type Parity = 'even' | 'odd';
type WaveVector = Readonly<Record<Axis, number>>;

const parityOf = ({ kind, along }: NodeCurrent, axis: Axis): Parity =>
  (kind === 'electric') === (along === axis) ? 'even' : 'odd';

/** Sums over the images of exp(j wave place), for places along one axis and both signs. */
interface Factors {
  readonly even: ComplexField;
  readonly odd: ComplexField;
  set(wave: number): void;
}

function axisFactors(places: Float64Array, images: readonly AxisImage[]): Factors {
  const field = () => ({ re: new Float64Array(places.length), im: new Float64Array(places.length) });
  const factors = { even: field(), odd: field() };
  let last = Number.NaN;
  return {
    ...factors,
    set(wave) {
      if (wave === last) return;
      last = wave;
      for (let n = 0; n < places.length; n++) {
        let evenRe = 0;
        let evenIm = 0;
        let oddRe = 0;
        let oddIm = 0;
        for (const { sense, offset, even, odd } of images) {
          const angle = wave * (sense * (places[n] as number) + offset);
          const c = Math.cos(angle);
          const s = Math.sin(angle);
          evenRe += even * c;
          evenIm += even * s;
          oddRe += odd * c;
          oddIm += odd * s;
        }
        factors.even.re[n] = evenRe;
        factors.even.im[n] = evenIm;
        factors.odd.re[n] = oddRe;
        factors.odd.im[n] = oddIm;
      }
    },
  };
}

/** A function that adds the moments of one face, with all images, for one wave vector. */
function faceSum({ face, u, v, currents }: NodeFace, images: AxisImages, grid: Grid) {
  const alongU = axisFactors(u, images[face.u]);
  const alongV = axisFactors(v, images[face.v]);
  const alongNormal = axisFactors(Float64Array.of(grid.lines[face.normal][face.at] as number), images[face.normal]);
  const parts = currents.map((current) => ({
    current,
    target: 2 * ((current.kind === 'electric' ? 0 : 3) + AXES.indexOf(current.along)),
    u: alongU[parityOf(current, face.u)],
    v: alongV[parityOf(current, face.v)],
    normal: alongNormal[parityOf(current, face.normal)],
    columns: { re: new Float64Array(u.length), im: new Float64Array(u.length) },
  }));
  let lastV = Number.NaN;
  return (moments: Moments, wave: WaveVector): void => {
    alongU.set(wave[face.u]);
    alongV.set(wave[face.v]);
    alongNormal.set(wave[face.normal]);
    const isNew = wave[face.v] !== lastV;
    lastV = wave[face.v];
    for (const part of parts) {
      if (isNew) sumColumns(part.columns, part.current, part.v);
      addProduct(moments, part);
    }
  };
}

/** For each column of nodes the sum along v. In these loops no arrays are taken apart: engines make each of them anew. */
function sumColumns(out: ComplexField, { re, im }: ComplexField, v: ComplexField): void {
  const count = out.re.length;
  out.re.fill(0);
  out.im.fill(0);
  for (let b = 0, n = 0; b < v.re.length; b++) {
    const c = v.re[b] as number;
    const s = v.im[b] as number;
    for (let a = 0; a < count; a++, n++) {
      const x = re[n] as number;
      const y = im[n] as number;
      out.re[a] = (out.re[a] as number) + x * c - y * s;
      out.im[a] = (out.im[a] as number) + x * s + y * c;
    }
  }
}

interface Product {
  readonly target: number;
  readonly u: ComplexField;
  readonly normal: ComplexField;
  readonly columns: ComplexField;
}

function addProduct(moments: Moments, { target, u, normal, columns }: Product): void {
  let re = 0;
  let im = 0;
  for (let a = 0; a < columns.re.length; a++) {
    const x = columns.re[a] as number;
    const y = columns.im[a] as number;
    const c = u.re[a] as number;
    const s = u.im[a] as number;
    re += x * c - y * s;
    im += x * s + y * c;
  }
  const [c, s] = [normal.re[0] as number, normal.im[0] as number];
  moments[target] = (moments[target] as number) + re * c - im * s;
  moments[target + 1] = (moments[target + 1] as number) + re * s + im * c;
}

const unitVector = ({ theta, phi }: Direction): WaveVector => ({
  x: Math.sin(theta) * Math.cos(phi),
  y: Math.sin(theta) * Math.sin(phi),
  z: Math.cos(theta),
});

function fieldOf(m: Moments, k: number, { theta, phi }: Direction): FarField {
  const [ct, st, cp, sp] = [Math.cos(theta), Math.sin(theta), Math.cos(phi), Math.sin(phi)];
  const scale = k / (4 * Math.PI);
  const eta = FREE_SPACE_IMPEDANCE;
  const along = (part: number) => {
    const [x, y, z] = [m[part] as number, m[part + 2] as number, m[part + 4] as number];
    return { theta: x * ct * cp + y * ct * sp - z * st, phi: -x * sp + y * cp };
  };
  const [nRe, nIm, lRe, lIm] = [along(0), along(1), along(6), along(7)];
  // Times -j and +j: (re + j im)(-j) = im - j re.
  return {
    thetaRe: scale * (lIm.phi + eta * nIm.theta),
    thetaIm: -scale * (lRe.phi + eta * nRe.theta),
    phiRe: -scale * (lIm.theta - eta * nIm.phi),
    phiIm: scale * (lRe.theta - eta * nRe.phi),
  };
}
