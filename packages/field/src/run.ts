import { FieldError } from './field-error.ts';
import type { Kernel, KernelInput, KernelMaker, Layout, MemoryMaker, Probe } from './kernel.ts';
import { portOnGrid } from './lumped.ts';
import { type Model, modelMemory } from './model.ts';
import { type Gauge, type PortGauges, portGauges } from './port-probes.ts';
import { COMPONENT_NAMES } from './update.ts';
import type { Waveform } from './waveform.ts';

/** Sees the fields between two batches. E is at `time`, H half a step later. */
export interface Observer {
  sample(memory: Float32Array, layout: Layout, time: number): void;
}

/** What one run recorded. volts[p][n] is at (n + 1) dt, amps[p][n] at (n + 1.5) dt. */
export interface Traces {
  readonly dt: number;
  readonly steps: number;
  readonly volts: readonly Float64Array[];
  readonly amps: readonly Float64Array[];
  /** Field energy at the end, dB of its highest value. */
  readonly energyDb: number;
  /** s, when the generator had fallen silent. */
  readonly silentAfter: number;
}

export interface Progress {
  readonly step: number;
  /** Estimated, from the decay so far. */
  readonly steps: number;
  readonly energyDb: number;
}

export interface RunRequest {
  readonly model: Model;
  /** Number of the driven port. */
  readonly port: number;
  readonly waveform: Waveform;
  readonly kernel: KernelMaker;
  readonly allocate?: MemoryMaker | undefined;
  readonly observers: readonly Observer[];
  /** The run ends when the energy has fallen to this, dB. */
  readonly stopDb: number;
  /** The run ends after this many steps at the latest. */
  readonly mostSteps: number;
  /** Steps between two samples of the observers. */
  readonly batch: number;
  /** Asked between batches after the generator fell silent: true ends the run. */
  readonly enough?: ((traces: Traces) => boolean) | undefined;
  readonly onProgress?: ((progress: Progress) => void) | undefined;
  readonly signal?: AbortSignal | undefined;
}

/** Steps between two looks at the energy. */
const ENERGY_EVERY = 128;

/** Runs one excitation until its fields have died away. Throws FieldError when they grow instead. */
export async function runExcitation(request: RunRequest): Promise<Traces> {
  const { model } = request;
  const recorder = makeRecorder(model);
  const input = modelMemory(model, {
    probes: recorder.probes,
    maxBatch: request.batch,
    ...(request.allocate ? { allocate: request.allocate } : {}),
  });
  const kernel = await request.kernel(input);
  try {
    return await runBatches(request, { input, kernel, recorder });
  } finally {
    kernel.close();
  }
}

interface Running {
  readonly input: KernelInput;
  readonly kernel: Kernel;
  readonly recorder: Recorder;
}

async function runBatches(request: RunRequest, { input, kernel, recorder }: Running): Promise<Traces> {
  const { model, waveform, batch } = request;
  const { layout } = input;
  const memory = new Float32Array(input.buffer, 0, layout.end);
  const watch = energyWatch(memory, layout, waveform.end / model.dt);
  let step = 0;
  for (;;) {
    request.signal?.throwIfAborted();
    writeWave(memory, layout, { port: request.port, waveform, first: step, dt: model.dt });
    await kernel.advance(batch);
    recorder.read(memory, layout, batch);
    step += batch;
    for (const observer of request.observers) observer.sample(memory, layout, step * model.dt);
    if (step % (Math.ceil(ENERGY_EVERY / batch) * batch) !== 0) continue;
    const energyDb = watch(step);
    const silent = step * model.dt > 1.2 * waveform.end;
    refuseGrowth(energyDb, step);
    const traces = () => recorder.traces({ dt: model.dt, energyDb, silentAfter: waveform.end });
    request.onProgress?.({ step, steps: expectedSteps(step, energyDb, request.stopDb), energyDb });
    if (silent && energyDb < request.stopDb) return traces();
    if (step >= request.mostSteps || (silent && request.enough?.(traces()))) return traces();
  }
}

const expectedSteps = (step: number, energyDb: number, stopDb: number) =>
  energyDb < -1 ? Math.max(step, Math.ceil((step * stopDb) / energyDb)) : 4 * step;

interface WaveRequest {
  readonly port: number;
  readonly waveform: Waveform;
  readonly first: number;
  readonly dt: number;
}

/** The generator acts half way between two values of E. */
function writeWave(memory: Float32Array, layout: Layout, { port, waveform, first, dt }: WaveRequest): void {
  for (let n = 0; n < layout.maxBatch; n++) {
    memory[layout.waves + port * layout.maxBatch + n] = waveform.at((first + n + 0.5) * dt);
  }
}

/** Gives the energy of the fields at a step, dB of the highest while they were driven; NaN when it is no number. */
function energyWatch(memory: Float32Array, layout: Layout, silentAfter: number): (step: number) => number {
  const { sx, ny, nz } = layout.shape;
  let highest = 0;
  return (step) => {
    let energy = 0;
    for (const name of COMPONENT_NAMES) {
      const from = layout.fields[name];
      // Every third row tells enough, in a third of the time.
      for (let row = 0; row < ny * nz; row += 3) {
        for (let n = from + row * sx; n < from + row * sx + sx; n++) energy += (memory[n] as number) ** 2;
      }
    }
    if (step < 1.2 * silentAfter) highest = Math.max(highest, energy);
    return Number.isFinite(energy) ? 10 * Math.log10(energy / highest) : Number.NaN;
  };
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

interface Recorder {
  readonly probes: readonly Probe[];
  read(memory: Float32Array, layout: Layout, steps: number): void;
  traces(rest: Pick<Traces, 'dt' | 'energyDb' | 'silentAfter'>): Traces;
}

/** Turns the recorded elements into voltages and currents of the ports. */
function makeRecorder(model: Model): Recorder {
  const gauges = model.scene.ports.map((port) => portGauges(model.grid, portOnGrid(model, port)));
  const probes: Probe[] = [];
  const placed = gauges
    .flatMap((gauge: PortGauges) => [gauge.volts, gauge.amps])
    .map((gauge) => placeGauge(gauge, probes));
  const series: number[][] = placed.map(() => []);
  return {
    probes,
    read(memory, layout, steps) {
      placed.forEach((gauge, g) => {
        for (let n = 0; n < steps; n++)
          series[g]?.push(readGauge(gauge, memory, layout.records + n * layout.probeCount));
      });
    },
    traces: (rest) => ({
      ...rest,
      steps: series[0]?.length ?? 0,
      volts: gauges.map((_, p) => Float64Array.from(series[2 * p] ?? [])),
      amps: gauges.map((_, p) => Float64Array.from(series[2 * p + 1] ?? [])),
    }),
  };
}

type PlacedGauge = readonly { readonly index: number; readonly weight: number }[];

function placeGauge(gauge: Gauge, probes: Probe[]): PlacedGauge {
  return gauge.terms.map(({ probe, weight }) => ({ index: probes.push(probe) - 1, weight }));
}

function readGauge(gauge: PlacedGauge, memory: Float32Array, from: number): number {
  let value = 0;
  for (const { index, weight } of gauge) value += weight * (memory[from + index] as number);
  return value;
}
