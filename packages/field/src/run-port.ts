import { FieldError } from './field-error.ts';
import type { KernelMaker, MemoryMaker } from './kernel.ts';
import { type MetalSampler, metalSampler } from './metal-sampler.ts';
import type { Model } from './model.ts';
import type { Plan } from './plan-scene.ts';
import type { Progress } from './progress.ts';
import { runExcitation, type Traces } from './run.ts';
import { sampleSteps } from './sample-steps.ts';
import type { Band } from './scene.ts';
import { type SliceSampler, sliceSampler } from './slice-sampler.ts';
import type { RunReport } from './solution.ts';
import type { SolveOptions } from './solve-options.ts';
import { type SurfaceSampler, surfaceSampler } from './surface-sampler.ts';
import { acceptedTails, lastingExponent, resonancesOf, ringingSteps, type Tail } from './tail.ts';
import { pulseFor } from './waveform.ts';

/** One driven port: what was recorded, and how it ended. */
export interface Run {
  readonly port: number;
  readonly traces: Traces;
  readonly tails: { readonly volts: readonly Tail[]; readonly amps: readonly Tail[] } | undefined;
  readonly samplers: Samplers | undefined;
  readonly report: RunReport;
}

export interface Samplers {
  readonly surface: SurfaceSampler;
  readonly metal: MetalSampler;
  readonly slices: SliceSampler;
}

/** The kernel that runs it, and who wants to know how far it has come. */
export interface RunOptions {
  readonly kernel: KernelMaker;
  readonly allocate?: MemoryMaker | undefined;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
}

/** Drives one port until its answers are known. Throws FieldError when they are not. */
export async function runPort(
  plan: Plan,
  options: Omit<SolveOptions, keyof RunOptions> & RunOptions,
  port: number,
): Promise<Run> {
  const { model } = plan;
  const { band, stopDb = -50, mostPeriods = 400, farFieldHz = [] } = options;
  const waveform = pulseFor(band);
  const batch = sampleSteps(model.dt, waveform, farFieldHz);
  const samplers = farFieldHz.length > 0 ? makeSamplers(model, options, batch) : undefined;
  const traces = await runExcitation({
    model,
    port,
    waveform,
    kernel: options.kernel,
    allocate: options.allocate,
    observers: samplers ? [samplers.surface, samplers.metal, samplers.slices] : [],
    stopDb,
    // Who says how quiet it has to be says when it ends.
    ringingSteps: options.stopDb === undefined ? ringingSteps(model.dt, band) : 0,
    mostSteps: Math.ceil((2 * mostPeriods) / (band.low + band.high) / model.dt + waveform.end / model.dt),
    batch,
    enough: enoughWatch(port, band, samplers ? QUIET_SURFACE_DB : 0),
    usualSteps: plan.report.expectedSteps,
    onProgress: options.onProgress,
    signal: options.signal,
  });
  const decayed = traces.energyDb < stopDb;
  const tails = decayed ? undefined : acceptedTails(traces, port, band);
  if (!decayed && !tails) throw new FieldError([notConverged(traces)]);
  const lasting = tails?.volts[port] ? lastingExponent(tails.volts[port]) : undefined;
  if (lasting) samplers?.surface.ringOn(lasting);
  const { resonances, residual } = resonancesOf(traces, port, band);
  const end = decayed ? 'decayed' : 'extrapolated';
  return {
    port,
    traces,
    tails,
    samplers,
    report: { port, steps: traces.steps, end, energyDb: traces.energyDb, resonances, residual },
  };
}

type SamplerOptions = Pick<SolveOptions, 'farFieldHz' | 'slices' | 'currents'>;

function makeSamplers(
  model: Model,
  { farFieldHz = [], slices = [], currents = false }: SamplerOptions,
  batch: number,
): Samplers {
  const timing = { dt: model.dt, interval: batch * model.dt };
  return {
    surface: surfaceSampler(model.grid, farFieldHz, timing),
    metal: metalSampler(model, { freqHz: farFieldHz, all: currents }, timing),
    slices: sliceSampler(model.grid, { requests: slices, freqHz: farFieldHz }, timing),
  };
}

/** The surface is continued by one pole only: the others must have died away before. */
const QUIET_SURFACE_DB = -30;

/** Looks for an accepted continuation of the ports each time the run has become a fifth longer. */
function enoughWatch(port: number, band: Band, highestDb: number): (traces: Traces) => boolean {
  let next = 0;
  return (traces) => {
    if (traces.steps < next || traces.energyDb > highestDb) return false;
    next = 1.2 * traces.steps;
    return acceptedTails(traces, port, band) !== undefined;
  };
}

const notConverged = ({ steps, energyDb }: Traces) => ({
  code: 'not-converged',
  path: 'run',
  value: `${steps} steps`,
  allowed: `the fields still hold ${energyDb.toFixed(1)} dB of their energy and their ringing is not a sum of few poles`,
  remedy: 'allow more periods, or put a load on the structure',
});
