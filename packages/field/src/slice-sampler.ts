import { FREE_SPACE_IMPEDANCE } from './constants.ts';
import { type Grid, nearestLine } from './grid.ts';
import type { Observer } from './run.ts';
import { planeAxes } from './scene.ts';
import type { ComplexField } from './surface-sampler.ts';
import { type Axis, COMPONENT_NAMES, type ComponentName } from './update.ts';

/** A plane through the grid that is to be seen. */
export interface SliceRequest {
  readonly normal: Axis;
  /** m; the nearest line of the grid is taken. */
  readonly at: number;
}

/**
 * The fields of one plane at one frequency, E in V/m times s and H in A/m times s: every component where the grid holds
 * it, index b * nodesU + a. Along an axis of its own a component of E lies half a cell on; a component of H along the
 * other two.
 */
export interface Slice extends SliceRequest {
  readonly freqHz: number;
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly components: Readonly<Record<ComponentName, ComplexField>>;
}

export interface SliceSampler extends Observer {
  readonly slices: readonly Slice[];
}

/** Adds up the Fourier integrals of whole planes, for pictures. */
export function sliceSampler(
  grid: Grid,
  { requests, freqHz }: { requests: readonly SliceRequest[]; freqHz: readonly number[] },
  timing: { dt: number; interval: number },
): SliceSampler {
  const slices = requests.flatMap((request) => freqHz.map((freq) => emptySlice(grid, request, freq)));
  return {
    slices,
    sample(memory, layout, time) {
      const stride = { x: 1, y: layout.shape.sx, z: layout.shape.sx * layout.shape.ny };
      for (const { normal, at, u, freqHz: freq, components } of slices) {
        const [axisU, axisV] = planeAxes(normal);
        const start = nearestLine(grid.lines[normal], at) * stride[normal];
        for (const name of COMPONENT_NAMES) {
          const electric = name.startsWith('e');
          const phase = -2 * Math.PI * freq * (electric ? time : time + timing.dt / 2);
          const scale = timing.interval / (electric ? 1 : FREE_SPACE_IMPEDANCE);
          const [c, s] = [scale * Math.cos(phase), scale * Math.sin(phase)];
          const { re, im } = components[name];
          for (let n = 0; n < re.length; n++) {
            const at = start + (n % u.length) * stride[axisU] + Math.floor(n / u.length) * stride[axisV];
            const value = memory[layout.fields[name] + at] as number;
            re[n] = (re[n] as number) + c * value;
            im[n] = (im[n] as number) + s * value;
          }
        }
      }
    },
  };
}

function emptySlice(grid: Grid, { normal, at }: SliceRequest, freqHz: number): Slice {
  const [axisU, axisV] = planeAxes(normal);
  const [u, v] = [grid.lines[axisU], grid.lines[axisV]];
  const components = Object.fromEntries(
    COMPONENT_NAMES.map((name) => [
      name,
      { re: new Float64Array(u.length * v.length), im: new Float64Array(u.length * v.length) },
    ]),
  ) as Record<ComponentName, ComplexField>;
  const line = grid.lines[normal][nearestLine(grid.lines[normal], at)] as number;
  return { normal, at: line, freqHz, u, v, components };
}
