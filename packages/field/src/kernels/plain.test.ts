import { describe, expect, test } from 'vitest';
import { SPEED_OF_LIGHT } from '../constants.ts';
import { type AxisNumbers, buildMemory } from '../memory.ts';
import { plainKernel } from './plain.ts';

// A closed box of 30 x 20 x 10 mm in 1 mm cells: the modes are known exactly on the grid too.
const CELL = 1e-3;
const NODES = { x: 31, y: 21, z: 11 };
const courant = 0.57; // c dt / cell, just below 1/sqrt(3)

function axis(nodes: number): AxisNumbers {
  return {
    inverse: new Float32Array(nodes).fill(courant),
    b: new Float32Array(nodes),
    c: new Float32Array(nodes),
  };
}

function box() {
  const numbers = { x: axis(NODES.x), y: axis(NODES.y), z: axis(NODES.z) };
  const none = { low: 0, high: 0 };
  return buildMemory({
    nx: NODES.x,
    ny: NODES.y,
    nz: NODES.z,
    layers: { x: none, y: none, z: none },
    electric: numbers,
    magnetic: numbers,
    operations: [],
    probes: [{ component: 'ez', i: 7, j: 6, k: 5 }],
    waveCount: 0,
    maxBatch: 4096,
    coefficients: {
      electric(component, { j, k }, { ca, cb }) {
        const wallY = j === 0 || j === NODES.y - 1;
        const wallZ = k === 0 || k === NODES.z - 1;
        const [from, to] = component === 'ex' ? [0, NODES.x - 1] : [1, NODES.x - 1];
        const shut = (component !== 'ey' && wallY) || (component !== 'ez' && wallZ);
        const beyond = (component === 'ey' && j === NODES.y - 1) || (component === 'ez' && k === NODES.z - 1);
        if (shut || beyond) return;
        ca.fill(1, from, to);
        cb.fill(1, from, to);
      },
      magnetic: () => false,
    },
  });
}

/** (c/2) sqrt((m/a)^2 + ...) with each k replaced by what the grid makes of it. */
function modeOnGrid(m: number, n: number, p: number): number {
  const half = (count: number, cells: number) => Math.sin((count * Math.PI) / (2 * cells)) ** 2;
  const sum = half(m, NODES.x - 1) + half(n, NODES.y - 1) + half(p, NODES.z - 1);
  const dt = (courant * CELL) / SPEED_OF_LIGHT;
  return Math.asin(courant * Math.sqrt(sum)) / (Math.PI * dt);
}

describe('the plain kernel', () => {
  test('rings a closed box at its grid frequency', () => {
    const input = box();
    const memory = new Float32Array(input.buffer);
    const { layout } = input;
    const { sx, ny, nz } = layout.shape;
    for (let k = 0; k < nz; k++) {
      for (let j = 1; j < ny - 1; j++) {
        for (let i = 1; i < NODES.x - 1; i++) {
          const value = Math.sin((Math.PI * i) / 30) * Math.sin((Math.PI * j) / 20);
          memory[layout.fields.ez + (k * ny + j) * sx + i] = k === nz - 1 ? 0 : value;
        }
      }
    }
    const kernel = plainKernel(input);
    kernel.advance(4096);
    const trace = memory.subarray(layout.records, layout.records + 4096);
    // A cosine of known frequency: count its steps between far zero crossings.
    const crossings = [...trace.keys()].filter((n) => n > 0 && (trace[n - 1] ?? 0) > 0 && (trace[n] ?? 0) <= 0);
    const at = (n: number) => n - (trace[n] ?? 0) / ((trace[n] ?? 0) - (trace[n - 1] ?? 0));
    const first = crossings[0] ?? 0;
    const last = crossings.at(-1) ?? 0;
    const dt = (courant * CELL) / SPEED_OF_LIGHT;
    const frequency = (crossings.length - 1) / ((at(last) - at(first)) * dt);
    expect(frequency / modeOnGrid(1, 1, 0)).toBeCloseTo(1, 5);
    // 9.0077 GHz: the exact mode of the box, (c/2) sqrt(1/30^2 + 1/20^2) mm; 1 mm cells lower it by less than 0.1 %.
    expect(Math.abs(frequency / 9.0077e9 - 1)).toBeLessThan(1e-3);
  });
});
