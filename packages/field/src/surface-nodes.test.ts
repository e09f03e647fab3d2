/**
 * A short dipole inside the surface: near fields and far field are exact (C. A. Balanis, Antenna Theory, 4th ed.,
 * eq. 4-8 and 4-10, `memory`; the far field is their limit). What is left is the rule of the middle over cells of 1 mm.
 */
import { describe, expect, it } from 'vitest';
import { FREE_SPACE_IMPEDANCE, SPEED_OF_LIGHT } from './constants.ts';
import { type Direction, type FarField, farField, type Mirror } from './far-field.ts';
import type { Grid } from './grid.ts';
import { planeAxes } from './scene.ts';
import type { Face, FaceFields } from './surface-sampler.ts';
import type { Axis } from './update.ts';

const FREQ = 5e9;
const K = (2 * Math.PI * FREQ) / SPEED_OF_LIGHT;
const MM = 1e-3;
/** Centre of the dipole, along z. */
const [X0, Y0, Z0] = [3 * MM, -2 * MM, 5 * MM];

type Vector = Record<Axis, { re: number; im: number }>;

/** Fields of a dipole of 1 A m along z, at the height z0. */
function nearFields(z0: number, { x, y, z }: Record<Axis, number>): { e: Vector; h: Vector } {
  const [dx, dy, dz] = [x - X0, y - Y0, z - z0];
  const r = Math.hypot(dx, dy, dz);
  const [ct, st, phi] = [dz / r, Math.hypot(dx, dy) / r, Math.atan2(dy, dx)];
  const [c, s] = [Math.cos(K * r), -Math.sin(K * r)];
  const turned = (re: number, im: number) => ({ re: re * c - im * s, im: re * s + im * c });
  const kr = K * r;
  const radial = turned(1, -1 / kr);
  const scaleR = (FREE_SPACE_IMPEDANCE * ct) / (2 * Math.PI * r * r);
  const across = turned(1 / kr, 1 - 1 / (kr * kr));
  const scaleT = (FREE_SPACE_IMPEDANCE * K * st) / (4 * Math.PI * r);
  const around = turned(1 / kr, 1);
  const scaleH = (K * st) / (4 * Math.PI * r);
  const flat = (part: 're' | 'im') => scaleR * radial[part] * st + scaleT * across[part] * ct;
  const upright = (part: 're' | 'im') => scaleR * radial[part] * ct - scaleT * across[part] * st;
  const both = (value: (part: 're' | 'im') => number) => ({ re: value('re'), im: value('im') });
  return {
    e: { x: both((p) => flat(p) * Math.cos(phi)), y: both((p) => flat(p) * Math.sin(phi)), z: both(upright) },
    h: {
      x: both((p) => -scaleH * around[p] * Math.sin(phi)),
      y: both((p) => scaleH * around[p] * Math.cos(phi)),
      z: { re: 0, im: 0 },
    },
  };
}

const CELLS = 24;
const lines = (low: number) => Float64Array.from({ length: CELLS + 1 }, (_, n) => (low + n) * MM);
const closed = { low: 'open', high: 'open' } as const;
const gridFrom = (lowZ: number): Grid => ({
  lines: { x: lines(-12), y: lines(-12), z: lines(lowZ) },
  sides: { x: closed, y: closed, z: closed },
  layers: { x: { low: 0, high: 0 }, y: { low: 0, high: 0 }, z: { low: 0, high: 0 } },
});

type Side = readonly [normal: Axis, outward: 1 | -1];

/** The fields of dipoles at these heights on one side of the box. */
function sampled(grid: Grid, [normal, outward]: Side, heights: readonly number[]): FaceFields {
  const [u, v] = planeAxes(normal);
  const all = [0, CELLS] as const;
  const face: Face = { normal, outward, at: outward > 0 ? CELLS : 0, u, v, rangeU: all, rangeV: all };
  const field = () => ({ re: new Float64Array(CELLS ** 2), im: new Float64Array(CELLS ** 2) });
  const fields: FaceFields = { face, eu: field(), ev: field(), hu: field(), hv: field() };
  const middle = (axis: Axis, n: number) => ((grid.lines[axis][n] ?? 0) + (grid.lines[axis][n + 1] ?? 0)) / 2;
  for (let n = 0; n < CELLS ** 2; n++) {
    const place = { x: 0, y: 0, z: 0 };
    place[normal] = grid.lines[normal][face.at] ?? 0;
    place[u] = middle(u, n % CELLS);
    place[v] = middle(v, Math.floor(n / CELLS));
    for (const { e, h } of heights.map((z0) => nearFields(z0, place))) {
      for (const [target, value] of [
        [fields.eu, e[u]],
        [fields.ev, e[v]],
        [fields.hu, h[u]],
        [fields.hv, h[v]],
      ] as const) {
        target.re[n] = (target.re[n] ?? 0) + value.re;
        target.im[n] = (target.im[n] ?? 0) + value.im;
      }
    }
  }
  return fields;
}

const directions: Direction[] = [0.2, 0.9, 1.4].flatMap((theta) => [0, 1, 2.5, 4].map((phi) => ({ theta, phi })));

interface Case {
  /** mm, of the lowest line across z. */
  readonly lowZ: number;
  readonly sides: readonly Side[];
  readonly heights: readonly number[];
  readonly mirrors: readonly Mirror[];
}

/** The largest difference between the field found and that of the dipoles, relative to the field across one of them. */
function largestError({ lowZ, sides, heights, mirrors }: Case): number {
  const grid = gridFrom(lowZ);
  const faces = sides.map((side) => sampled(grid, side, heights));
  const found = farField({ grid, faces, mirrors, freqHz: FREQ, directions });
  const errors = found.map((field: FarField, n) => {
    const own = heights.map((z0) => exact(directions[n] as Direction, z0));
    const sum = (part: 're' | 'im') => own.reduce((total, one) => total + one[part], 0);
    return Math.hypot(field.thetaRe - sum('re'), field.thetaIm - sum('im'), field.phiRe, field.phiIm);
  });
  return Math.max(...errors) / ((FREE_SPACE_IMPEDANCE * K) / (4 * Math.PI));
}

/** j eta k sin(theta) / 4 pi, turned by the place of the dipole. */
function exact({ theta, phi }: Direction, z0: number): { re: number; im: number } {
  const angle =
    K * (X0 * Math.sin(theta) * Math.cos(phi) + Y0 * Math.sin(theta) * Math.sin(phi) + z0 * Math.cos(theta));
  const size = (FREE_SPACE_IMPEDANCE * K * Math.sin(theta)) / (4 * Math.PI);
  return { re: -size * Math.sin(angle), im: size * Math.cos(angle) };
}

describe('the far field of a short dipole, from its fields on a box', () => {
  const walls: readonly Side[] = [
    ['x', 1],
    ['x', -1],
    ['y', 1],
    ['y', -1],
  ];

  it('is that of the dipole where it stands', () => {
    const sides: readonly Side[] = [...walls, ['z', 1], ['z', -1]];
    expect(largestError({ lowZ: -8, sides, heights: [Z0], mirrors: [] })).toBeLessThan(0.01);
  });

  it('over a plane of metal is that of the dipole and of its image, which has the same sense', () => {
    const mirrors = [{ axis: 'z', at: 0, kind: 'metal' }] as const;
    const sides: readonly Side[] = [...walls, ['z', 1]];
    expect(largestError({ lowZ: 0, sides, heights: [Z0, -Z0], mirrors })).toBeLessThan(0.01);
  });
});
