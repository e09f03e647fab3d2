import { add, type Complex, complex, conjugate, divide, expComplex, multiply, scale, subtract } from './complex.ts';
import { FREE_SPACE_IMPEDANCE } from './constants.ts';
import { dualSpacings, type Grid, spacings } from './grid.ts';
import type { Layout } from './kernel.ts';
import type { Observer } from './run.ts';
import { planeAxes } from './scene.ts';
import type { Axis, ComponentName } from './update.ts';

/** One side of the closed surface: a plane of the grid, between lines of the other two axes. */
export interface Face {
  readonly normal: Axis;
  /** +1 when the outward normal points along the axis. */
  readonly outward: 1 | -1;
  /** Index of the line in which the face lies. */
  readonly at: number;
  /** The two axes of the face and the index ranges of its cells, [from, to). */
  readonly u: Axis;
  readonly v: Axis;
  readonly rangeU: readonly [number, number];
  readonly rangeV: readonly [number, number];
}

/** Index limits of the box along each axis; a side at a plane of symmetry or a wall is left out (`low` is then 0). */
export type Box = Readonly<Record<Axis, readonly [number, number]>>;

/** Cells between the surface and the absorbing layer. */
const DISTANCE = 2;

/** The box just inside the absorbing layers. */
function surfaceBox(grid: Grid): Box {
  const range = (axis: Axis): [number, number] => {
    const { low, high } = grid.layers[axis];
    const last = grid.lines[axis].length - 1;
    return [low > 0 ? low + DISTANCE : 0, high > 0 ? last - high - DISTANCE : last];
  };
  return { x: range('x'), y: range('y'), z: range('z') };
}

/** The faces of the box through which power leaves. */
function surfaceFaces(grid: Grid): Face[] {
  const box = surfaceBox(grid);
  return (['x', 'y', 'z'] as const).flatMap((normal) => {
    const [u, v] = planeAxes(normal);
    const common = { normal, u, v, rangeU: box[u], rangeV: box[v] };
    const faces: Face[] = [];
    if (grid.layers[normal].low > 0) faces.push({ ...common, outward: -1, at: box[normal][0] });
    if (grid.layers[normal].high > 0) faces.push({ ...common, outward: 1, at: box[normal][1] });
    return faces;
  });
}

/** Tangential fields of one face at one frequency, in the middle of each cell; index (b * cellsU + a). */
export interface FaceFields {
  readonly face: Face;
  /** Real and imaginary parts, E in V/m times s, H in A/m times s (integrals over time). */
  readonly eu: ComplexField;
  readonly ev: ComplexField;
  readonly hu: ComplexField;
  readonly hv: ComplexField;
}

export interface ComplexField {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export interface SurfaceSampler extends Observer {
  /** One list of faces for each frequency. */
  readonly fields: readonly (readonly FaceFields[])[];
  /**
   * Adds what a ringing of this exponent (1/s) would bring after the last sample, when everything else has died away: its
   * amplitude and phase at each place follow from the last two samples there.
   */
  ringOn(exponent: Complex): void;
}

const FIELDS = ['eu', 'ev', 'hu', 'hv'] as const;

/**
 * Adds up the Fourier integrals of the tangential fields on the surface, sample by sample. H lies half a cell before
 * and behind the surface and half a step later in time; both are put right here.
 */
export function surfaceSampler(
  grid: Grid,
  freqHz: readonly number[],
  timing: { dt: number; interval: number },
): SurfaceSampler {
  const faces = surfaceFaces(grid);
  const fields = freqHz.map(() => faces.map(emptyFields));
  const readers = faces.map((face) => faceReader(grid, face));
  const kept = faces.map((face) => ({ last: emptyValues(face), before: emptyValues(face) }));
  let lastTime = 0;
  return {
    fields,
    ringOn(exponent) {
      freqHz.forEach((freq, n) => {
        faces.forEach((_, f) => {
          const { last, before } = kept[f] as Kept;
          for (const name of FIELDS) {
            const time = name[0] === 'e' ? lastTime : lastTime + timing.dt / 2;
            const weights = ringWeights(exponent, { freq, time, interval: timing.interval });
            const target = (fields[n] as FaceFields[])[f] as FaceFields;
            accumulate(target[name], last[name], weights.last);
            accumulate(target[name], before[name], weights.before);
          }
        });
      });
    },
    sample(memory, layout, time) {
      lastTime = time;
      faces.forEach((_, f) => {
        const values = (readers[f] as FaceReader)(memory, layout);
        const own = kept[f] as Kept;
        for (const name of FIELDS) {
          own.before[name].set(own.last[name]);
          own.last[name].set(values[name]);
        }
        freqHz.forEach((freq, n) => {
          const target = (fields[n] as FaceFields[])[f] as FaceFields;
          for (const name of FIELDS) {
            const phase = -2 * Math.PI * freq * (name[0] === 'e' ? time : time + timing.dt / 2);
            accumulate(target[name], values[name], [
              timing.interval * Math.cos(phase),
              timing.interval * Math.sin(phase),
            ]);
          }
        });
      });
    },
  };
}

type Values = Readonly<Record<(typeof FIELDS)[number], Float64Array>>;

interface Kept {
  readonly last: Values;
  readonly before: Values;
}

const emptyValues = (face: Face): Values => ({ eu: empty(face), ev: empty(face), hu: empty(face), hv: empty(face) });

/**
 * With x(t) = Re(A e^(s t)) from the last sample on: A = a + ib with a = x(0) and, as x(-T) = Re(A e^(-sT)),
 * b = (a p - x(-T))/q for e^(-sT) = p + iq. The rest of the Fourier sum is T/2 e^(-jwt) (A g(s) + A* g(s*)),
 * g(s) = r/(1 - r), r = e^((s - jw) T). All of this is linear in the two samples: these are their weights.
 */
function ringWeights(
  exponent: Complex,
  { freq, time, interval }: { freq: number; time: number; interval: number },
): { last: readonly [number, number]; before: readonly [number, number] } {
  const { re: p, im: q } = expComplex(scale(exponent, -interval));
  const turn = complex(0, -2 * Math.PI * freq);
  const front = scale(expComplex(scale(turn, time)), interval / 2);
  const series = (s: Complex) => {
    const ratio = expComplex(scale(add(s, turn), interval));
    return multiply(front, divide(ratio, subtract(complex(1), ratio)));
  };
  const [own, mirrored] = [series(exponent), series(conjugate(exponent))];
  // A g + A* g' = a (g + g') + i b (g - g').
  const sum = add(own, mirrored);
  const difference = multiply(complex(0, 1), subtract(own, mirrored));
  const last = add(sum, scale(difference, p / q));
  const before = scale(difference, -1 / q);
  return { last: [last.re, last.im], before: [before.re, before.im] };
}

function accumulate({ re, im }: ComplexField, values: Float64Array, [c, s]: readonly [number, number]): void {
  for (let n = 0; n < re.length; n++) {
    const value = values[n] as number;
    re[n] = (re[n] as number) + c * value;
    im[n] = (im[n] as number) + s * value;
  }
}

const cellCount = ({ rangeU, rangeV }: Face) => (rangeU[1] - rangeU[0]) * (rangeV[1] - rangeV[0]);

function emptyFields(face: Face): FaceFields {
  const field = () => ({ re: new Float64Array(cellCount(face)), im: new Float64Array(cellCount(face)) });
  return { face, eu: field(), ev: field(), hu: field(), hv: field() };
}

type FaceReader = (memory: Float32Array, layout: Layout) => Values;

/** Reads the four tangential fields in the middle of every cell of a face. */
function faceReader(grid: Grid, face: Face): FaceReader {
  const values = { eu: empty(face), ev: empty(face), hu: empty(face), hv: empty(face) };
  const cells = spacings(grid.lines[face.normal]);
  const dual = dualSpacings(grid.lines[face.normal])[face.at] as number;
  // Linear between the two planes of H, half a cell before and behind.
  const ahead = (cells[face.at - 1] as number) / 2 / dual;
  const [u, v, n] = [face.u, face.v, face.normal];
  return (memory, layout) => {
    const stride = { x: 1, y: layout.shape.sx, z: layout.shape.sx * layout.shape.ny };
    const start = face.at * stride[n] + face.rangeU[0] * stride[u] + face.rangeV[0] * stride[v];
    const walk = { face, strideU: stride[u], strideV: stride[v], memory };
    const field = (name: ComponentName) => layout.fields[name] + start;
    // E along u lies in the middle along u, on the lines along v; H the other way round.
    mean(values.eu, walk, field(`e${u}`), stride[v], 0.5);
    mean(values.ev, walk, field(`e${v}`), stride[u], 0.5);
    meanOfPlanes(values.hu, walk, field(`h${u}`), { beside: stride[u], back: stride[n], ahead });
    meanOfPlanes(values.hv, walk, field(`h${v}`), { beside: stride[v], back: stride[n], ahead });
    return values;
  };
}

const empty = (face: Face) => new Float64Array(cellCount(face));

interface Walk {
  readonly face: Face;
  readonly strideU: number;
  readonly strideV: number;
  readonly memory: Float32Array;
}

/** scale * (value + value one stride on), for all cells. */
function mean(
  out: Float64Array,
  { face, strideU, strideV, memory }: Walk,
  from: number,
  beside: number,
  scale: number,
): void {
  const countU = face.rangeU[1] - face.rangeU[0];
  const countV = face.rangeV[1] - face.rangeV[0];
  for (let b = 0; b < countV; b++) {
    for (let a = 0; a < countU; a++) {
      const at = from + a * strideU + b * strideV;
      out[b * countU + a] = scale * ((memory[at] as number) + (memory[at + beside] as number));
    }
  }
}

interface Planes {
  readonly beside: number;
  readonly back: number;
  /** Weight of the plane ahead. */
  readonly ahead: number;
}

function meanOfPlanes(out: Float64Array, walk: Walk, from: number, { beside, back, ahead }: Planes): void {
  const { face, strideU, strideV, memory } = walk;
  const countU = face.rangeU[1] - face.rangeU[0];
  const countV = face.rangeV[1] - face.rangeV[0];
  const scale = 0.5 / FREE_SPACE_IMPEDANCE;
  for (let b = 0; b < countV; b++) {
    for (let a = 0; a < countU; a++) {
      const at = from + a * strideU + b * strideV;
      const here = (memory[at] as number) + (memory[at + beside] as number);
      const before = (memory[at - back] as number) + (memory[at - back + beside] as number);
      out[b * countU + a] = scale * (ahead * here + (1 - ahead) * before);
    }
  }
}
