import { buildMemory, wasmMemory } from '../dist/index.js';

/** 145 thousand cells, and 4.1 million. */
export const SMALL = { nx: 63, ny: 48, nz: 48 };
export const LARGE = { nx: 159, ny: 161, nz: 161 };

const courant = 0.5;

/** Graded spacings: 10 % up and down, so that no two neighbours are alike. */
const axis = (count, shift) => ({
  inverse: Array.from({ length: count }, (_, at) => courant * (1 + 0.1 * Math.sin(0.3 * at + shift))),
  b: new Float32Array(count),
  c: new Float32Array(count),
});

const halfStep = ({ nx, ny, nz }, fewer, shift) => ({
  x: axis(nx - fewer, shift),
  y: axis(ny - fewer, shift),
  z: axis(nz - fewer, shift),
});

/** A metal box with a patch on a lossy substrate over a ground plane in it: what the core kernel is timed on. */
export function coreGrid({ nx, ny, nz }, { isShared, maxBatch }) {
  const none = { low: 0, high: 0 };
  const ground = Math.floor(nz * 0.35);
  const patch = ground + 4;
  const within = (at, count, margin) => at > count * margin && at < count * (1 - margin);
  return buildMemory({
    nx,
    ny,
    nz,
    layers: { x: none, y: none, z: none },
    electric: halfStep({ nx, ny, nz }, 0, 0),
    magnetic: halfStep({ nx, ny, nz }, 1, 0.15),
    operations: [],
    probes: [],
    waveCount: 0,
    maxBatch,
    allocate: wasmMemory({ isShared }),
    coefficients: {
      magnetic: () => false,
      electric(component, { j, k }, { ca, cb }) {
        if (j === ny - 1 || k === nz - 1) return;
        if ((component !== 'ey' && j === 0) || (component !== 'ez' && k === 0)) return;
        const inSheets = component !== 'ez' && (k === ground || k === patch) && within(j, ny, k === patch ? 0.35 : 0.2);
        const inSubstrate = k > ground && k < patch && within(j, ny, 0.2);
        for (let i = component === 'ex' ? 0 : 1; i < nx - 1; i++) {
          const isMetal = inSheets && within(i, nx, k === patch ? 0.35 : 0.2);
          const isSubstrate = inSubstrate && within(i, nx, 0.2);
          [ca[i], cb[i]] = isMetal ? [0, 0] : isSubstrate ? [0.999, 0.3] : [1, 1];
        }
      },
    },
  });
}

/** Bytes of the six fields, without guards and padding. */
export const fieldBytes = ({ nx, ny, nz }) => 24 * nx * ny * nz;

export const cellsOf = ({ nx, ny, nz }) => nx * ny * nz;
