import { energyWatch } from './energy-watch.ts';
import type { Kernel, KernelInput, KernelMaker, Layout, MemoryMaker, Probe } from './kernel.ts';
import { currentHost } from './kernels/threads/current-host.ts';
import { portOnGrid } from './lumped.ts';
import { type Model, modelMemory } from './model.ts';
import { type Gauge, type PortGauges, portGauges } from './port-probes.ts';
import { type Progress, progressWatch } from './progress.ts';
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
  /** It does not end sooner after the generator fell silent than by so many steps: poles need some ringing. Default 0. */
  readonly ringingSteps?: number;
  /** The run ends after this many steps at the latest. */
  readonly mostSteps: number;
  /** Steps between two samples of the observers. */
  readonly batch: number;
  /** Asked between batches after the generator fell silent: true ends the run. */
  readonly enough?: ((traces: Traces) => boolean) | undefined;
  /** Steps that such a run usually takes, for the progress of its beginning; default four times the pulse. */
  readonly usualSteps?: number;
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
  const pulseSteps = waveform.end / model.dt;
  const watch = energyWatch(memory, layout, pulseSteps);
  const progress = progressWatch({
    silent: pulseSteps,
    stopDb: request.stopDb,
    usual: request.usualSteps ?? 4 * pulseSteps,
    most: request.mostSteps,
  });
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
    const now = progress(step, energyDb);
    const traces = () => recorder.traces({ dt: model.dt, energyDb, silentAfter: waveform.end });
    const silent = step > pulseSteps + (request.ringingSteps ?? 0);
    const isOver = step >= request.mostSteps || (silent && (energyDb < request.stopDb || request.enough?.(traces())));
    request.onProgress?.(isOver ? { ...now, steps: step, fraction: 1 } : now);
    if (isOver) return traces();
    await currentHost()?.pause();
  }
}

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
