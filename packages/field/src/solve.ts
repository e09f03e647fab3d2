import { checkModel } from './check-model.ts';
import { checkScene } from './check-scene.ts';
import type { Complex } from './complex.ts';
import { type FarFieldRequest, farField, type Mirror, radiatedPower } from './far-field.ts';
import { FieldError } from './field-error.ts';
import type { KernelMaker, MemoryMaker } from './kernel.ts';
import { plainKernel } from './kernels/plain.ts';
import { coarserRules, meshErrorOf } from './mesh-error.ts';
import { type MetalSampler, metalLoss, metalSampler, sheetCurrents } from './metal-sampler.ts';
import { buildModel, type Model } from './model.ts';
import { decibels, directionNet, makePattern } from './pattern.ts';
import { type GridReport, planGrid, reportGrid } from './plan-grid.ts';
import { wallName } from './planes.ts';
import {
  acceptedPower,
  availablePower,
  type PortSpectra,
  portImpedance,
  portSpectra,
  scatteringColumn,
} from './ports.ts';
import type { GridRules, Quality } from './quality.ts';
import { type Progress, runExcitation, type Traces } from './run.ts';
import type { Band, Scene } from './scene.ts';
import { type SliceRequest, type SliceSampler, sliceSampler } from './slice-sampler.ts';
import type { FarFieldResult, RunReport, Solution } from './solution.ts';
import { type SurfaceSampler, surfaceSampler } from './surface-sampler.ts';
import { findSymmetry, type Symmetry } from './symmetry.ts';
import { acceptedTails, lastingExponent, resonancesOf, type Tail } from './tail.ts';
import { AXES } from './update.ts';
import { pulseFor, type Waveform } from './waveform.ts';

export interface SolveOptions {
  /** Hz: where answers are wanted; the pulse covers it. */
  readonly band: Band;
  /** Default `normal`. */
  readonly quality?: Quality;
  /** Hz, of the S parameters; default 201 over the band. */
  readonly freqHz?: readonly number[];
  /** Hz, of far fields; default none. */
  readonly farFieldHz?: readonly number[];
  /** Planes whose fields are wanted at the frequencies of the far fields; default none. */
  readonly slices?: readonly SliceRequest[];
  /** Degrees between two directions; default 3. */
  readonly stepDegrees?: number;
  /** Default: the plain kernel. */
  readonly kernel?: KernelMaker;
  readonly allocate?: MemoryMaker;
  /** Refuse a scene that needs more. */
  readonly memoryBytes?: number;
  /** Use planes of symmetry; default true. */
  readonly symmetry?: boolean;
  /** The run ends when the energy has fallen to this, dB; default -50. */
  readonly stopDb?: number;
  /** Longest run, in periods of the centre of the band; default 400. */
  readonly mostPeriods?: number;
  readonly rules?: Partial<GridRules>;
  /** Solve on a coarser grid too (about a quarter of the time) and state the error that is left; default false. */
  readonly twoMeshes?: boolean;
  readonly onProgress?: (progress: Progress) => void;
  readonly signal?: AbortSignal;
}

/** A scene on its grid, checked, with its costs: what is known before a step is run. */
export interface Plan {
  readonly model: Model;
  readonly report: GridReport;
  readonly symmetry: Symmetry;
}

const centreOf = ({ low, high }: Band) => (low + high) / 2;

/** Share of the time step that slanted and curved edges leave: their sub-cell factors need more room. */
const SLANTED_SHARE = 0.8;

/** Meshes a scene and checks it. Throws FieldError with all problems found. */
export function planScene(scene: Scene, options: SolveOptions): Plan {
  const problems = checkScene(scene, options.band);
  if (problems.length > 0) throw new FieldError(problems);
  const symmetry = findSymmetry(scene, { use: options.symmetry ?? true });
  const { band, quality = 'normal', rules = {} } = options;
  const grid = planGrid({ scene, band, quality, symmetry, rules });
  const report = reportGrid(grid);
  if (options.memoryBytes !== undefined && report.memoryBytes > options.memoryBytes) {
    throw new FieldError([memoryProblem(report, options.memoryBytes)]);
  }
  const stepShare = hasSlantedEdges(scene) ? SLANTED_SHARE : 1;
  const model = buildModel({ grid, scene, symmetry, centreHz: centreOf(band), stepShare });
  const found = checkModel(model);
  if (found.length > 0) throw new FieldError(found);
  return { model, report: { ...report, timeStep: model.dt, expectedSteps: expectedSteps(band, model.dt) }, symmetry };
}

/** The pulse, and the decay of a resonator of quality 25 to -50 dB. */
const expectedSteps = (band: Band, dt: number) =>
  Math.ceil((pulseFor(band).end + (11.5 * 25) / (2 * Math.PI * centreOf(band))) / dt);

/** Expected time of one run, s, with a kernel that works through this many cells in a second. */
export const expectedSeconds = ({ cells, expectedSteps: steps }: GridReport, cellsPerSecond: number): number =>
  (cells * steps) / cellsPerSecond;

const memoryProblem = (report: Omit<GridReport, 'expectedSteps'>, given: number) => ({
  code: 'memory',
  path: 'memoryBytes',
  value: String(given),
  allowed: `${report.cells} cells need ${report.memoryBytes} bytes`,
  remedy: 'give more memory, a coarser quality or a smaller scene',
});

const hasSlantedEdges = ({ sheets }: Scene) =>
  sheets.some((sheet) =>
    [sheet.outline, ...(sheet.holes ?? [])].some(
      (outline) =>
        outline.kind === 'disc' ||
        outline.points.some((point, n) => {
          const next = outline.points[(n + 1) % outline.points.length] as readonly [number, number];
          return Math.abs(point[0] - next[0]) > 1e-9 && Math.abs(point[1] - next[1]) > 1e-9;
        }),
    ),
  );

interface Run {
  readonly port: number;
  readonly traces: Traces;
  readonly tails: { readonly volts: readonly Tail[]; readonly amps: readonly Tail[] } | undefined;
  readonly samplers: Samplers | undefined;
  readonly report: RunReport;
}

interface Samplers {
  readonly surface: SurfaceSampler;
  readonly metal: MetalSampler;
  readonly slices: SliceSampler;
}

/**
 * Solves Maxwell's equations for a scene, one run for each port.
 * Throws FieldError when the scene cannot be solved, when a run goes unstable, or when it has not converged.
 */
export async function solve(scene: Scene, options: SolveOptions): Promise<Solution> {
  const solution = await solveOnce(scene, options);
  if (!options.twoMeshes) return solution;
  const rules = coarserRules(options.quality ?? 'normal', options.rules ?? {});
  const coarse = await solveOnce(scene, { ...options, rules, freqHz: solution.freqHz });
  return { ...solution, meshError: meshErrorOf(solution, coarse) };
}

async function solveOnce(scene: Scene, options: SolveOptions): Promise<Solution> {
  const plan = planScene(scene, options);
  const runs: Run[] = [];
  for (let port = 0; port < scene.ports.length; port++) runs.push(await runPort(plan, options, port));
  const { band } = options;
  const freqHz = options.freqHz ?? Array.from({ length: 201 }, (_, n) => band.low + ((band.high - band.low) * n) / 200);
  const referenceOhm = scene.ports.map(({ resistance }) => resistance);
  const spectra = freqHz.map((freq) => runs.map((run) => portSpectra(run.traces, freq, run.tails)));
  return {
    grid: plan.report,
    symmetry: plan.symmetry,
    freqHz,
    referenceOhm,
    s: spectra.map((each) => transpose(each.map((one, port) => scatteringColumn(one, port, referenceOhm)))),
    z: spectra.map((each) => each.map((one, port) => portImpedance(one, port))),
    farFields: runs.flatMap((run) => farFieldsOf(plan, options, run)),
    currents: runs.map(({ samplers }) =>
      (options.farFieldHz ?? []).flatMap((freq, n) =>
        samplers ? sheetCurrents(samplers.metal.fields[n] ?? { sides: [], wires: [] }, freq) : [],
      ),
    ),
    slices: runs.map(({ samplers }) => samplers?.slices.slices ?? []),
    runs: runs.map(({ report }) => report),
  };
}

const transpose = (columns: readonly (readonly Complex[])[]): Complex[][] =>
  columns.map((_, to) => columns.map((column) => column[to] as Complex));

async function runPort(plan: Plan, options: SolveOptions, port: number): Promise<Run> {
  const { model } = plan;
  const { band, stopDb = -50, mostPeriods = 400, farFieldHz = [] } = options;
  const waveform = pulseFor(band);
  const batch = batchSteps(model.dt, waveform);
  const samplers = farFieldHz.length > 0 ? makeSamplers(model, options, batch) : undefined;
  const traces = await runExcitation({
    model,
    port,
    waveform,
    kernel: options.kernel ?? plainKernel,
    allocate: options.allocate,
    observers: samplers ? [samplers.surface, samplers.metal, samplers.slices] : [],
    stopDb,
    mostSteps: Math.ceil(mostPeriods / centreOf(band) / model.dt + waveform.end / model.dt),
    batch,
    enough: enoughWatch(port, band, samplers ? QUIET_SURFACE_DB : 0),
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

function makeSamplers(model: Model, { farFieldHz = [], slices = [] }: SolveOptions, batch: number): Samplers {
  const timing = { dt: model.dt, interval: batch * model.dt };
  return {
    surface: surfaceSampler(model.grid, farFieldHz, timing),
    metal: metalSampler(model, farFieldHz, timing),
    slices: sliceSampler(model.grid, { requests: slices, freqHz: farFieldHz }, timing),
  };
}

/** Samples at least two and a half times in the shortest period that the pulse holds; at most 64 steps apart. */
const batchSteps = (dt: number, { highest }: Waveform) =>
  Math.max(1, Math.min(64, Math.floor(1 / (2.5 * highest * dt))));

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

function mirrorsOf({ model, symmetry }: Plan): { mirrors: Mirror[]; copies: number; half: boolean } {
  const planes = AXES.flatMap((axis): Mirror[] => {
    const plane = symmetry[axis];
    return plane?.used ? [{ axis, at: plane.at, kind: plane.kind }] : [];
  });
  const walls = AXES.flatMap((axis) =>
    (['Low', 'High'] as const).flatMap((side): Mirror[] => {
      const wall = model.scene.walls?.[wallName(axis, side)];
      return wall ? [{ axis, at: wall.at, kind: wall.kind }] : [];
    }),
  );
  return { mirrors: [...planes, ...walls], copies: 2 ** planes.length, half: model.scene.walls?.zLow !== undefined };
}

function farFieldsOf(plan: Plan, options: SolveOptions, run: Run): FarFieldResult[] {
  const { model } = plan;
  const { farFieldHz = [], stepDegrees = 3 } = options;
  const { mirrors, copies, half } = mirrorsOf(plan);
  const { theta, phi, directions } = directionNet(stepDegrees, half);
  return farFieldHz.map((freqHz, n) => {
    const faces = run.samplers?.surface.fields[n] ?? [];
    const metal = run.samplers?.metal.fields[n] ?? { sides: [], wires: [] };
    const request: FarFieldRequest = { grid: model.grid, faces, mirrors, freqHz, directions };
    const pattern = makePattern({ freqHz, port: run.port, theta, phi, fields: farField(request) });
    const spectra = portSpectra(run.traces, freqHz, run.tails);
    // The currents in metal are not continued: they are compared with what the ports gave until then.
    const recorded = portSpectra(run.traces, freqHz);
    const radiated = copies * radiatedPower(model.grid, faces);
    return farFieldResult(run, { pattern, spectra, recorded, radiated, lost: metalLoss(model, metal, freqHz), model });
  });
}

interface FarFieldParts {
  readonly pattern: FarFieldResult['pattern'];
  readonly spectra: PortSpectra;
  readonly recorded: PortSpectra;
  readonly radiated: number;
  readonly lost: number;
  readonly model: Model;
}

function farFieldResult({ port }: Run, parts: FarFieldParts): FarFieldResult {
  const { pattern, spectra, recorded, radiated, lost, model } = parts;
  const accepted = acceptedPower(spectra);
  const resistance = model.scene.ports[port]?.resistance ?? 1;
  const available = availablePower(spectra, port, resistance);
  const metal = lost / acceptedPower(recorded);
  // The fields are those of perfect metal: the loss comes on top of what they accept.
  const efficiency = Math.min(1, radiated / accepted) / (1 + metal);
  const gainDbi = pattern.directivityDbi + decibels(efficiency);
  return {
    pattern,
    balance: { freqHz: pattern.freqHz, port, radiated: radiated / accepted, metal, rest: 1 - radiated / accepted },
    efficiency,
    gainDbi,
    realisedGainDbi: gainDbi + decibels(acceptedPower(spectra) / available),
  };
}
