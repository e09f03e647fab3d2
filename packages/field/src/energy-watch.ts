import { FieldError } from './field-error.ts';
import type { Layout } from './kernel.ts';
import { COMPONENT_NAMES } from './update.ts';

/** One row of so many is looked at: enough to tell the energy, in a fraction of the time. */
const EVERY_ROW = 7;

/**
 * Gives the energy of the fields at a step, dB of the highest while they were driven.
 * Throws FieldError when the fields grow though nothing drives them, or are no numbers.
 */
export function energyWatch(memory: Float32Array, layout: Layout, silentAfter: number): (step: number) => number {
  let highest = 0;
  return (step) => {
    const energy = rowEnergy(memory, layout);
    if (step <= silentAfter) highest = Math.max(highest, energy);
    const energyDb = Number.isFinite(energy) ? 10 * Math.log10(energy / highest) : Number.NaN;
    refuseGrowth(energyDb, step);
    return energyDb;
  };
}

function rowEnergy(memory: Float32Array, { shape, fields }: Layout): number {
  const { sx, nx, ny, nz } = shape;
  let energy = 0;
  for (const name of COMPONENT_NAMES) {
    for (let row = 0; row < ny * nz; row += EVERY_ROW) {
      const from = fields[name] + row * sx;
      for (let n = from; n < from + nx; n++) {
        const value = memory[n] as number;
        energy += value * value;
      }
    }
  }
  return energy;
}

/** Twice the highest energy while something drove the fields, or no number at all. */
function refuseGrowth(energyDb: number, step: number): void {
  // NaN is not below 3 either.
  if (energyDb < 3) return;
  throw new FieldError([
    {
      code: 'unstable',
      path: 'run',
      value: `step ${step}`,
      allowed: 'the fields grow though nothing drives them',
      remedy: 'use a smaller share of the time step, or another quality',
    },
  ]);
}
