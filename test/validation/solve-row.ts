import {
  fastKernel,
  planScene,
  type Quality,
  type Resonance,
  type Solution,
  type SolveOptions,
  solve,
  wasmMemory,
} from '@sheetwave/field';
import { closedFormHz } from './closed-form.ts';
import { chooseDefinition, type Definition, type Read, readCurve } from './definitions.ts';
import { type Feed, listeningFeed, matchedFeed, patchScene, probeInductance, rulesFor } from './patch-scene.ts';
import type { PublishedRow } from './published-row.ts';

export interface RowOptions {
  readonly quality: Quality;
  readonly threads: number;
  /** Take the rules of the quality as they are, not fitted to the row; default false. */
  readonly asItIs?: boolean;
}

/** What the solver finds for a row. */
export interface RowPrediction extends Read {
  readonly chosen: Definition;
  readonly quality: number;
  readonly probe: Feed;
  readonly closedFormHz: number;
  /** Of both runs together, each on its grid. */
  readonly cells: number;
}

/**
 * Predicts a row in two runs: an open port gives the pole of the mode, then a probe for 50 ohm gives the impedance.
 * Throws FieldError when a run does not converge.
 */
export async function solveRow(row: PublishedRow, options: RowOptions): Promise<RowPrediction> {
  const guessHz = closedFormHz(row);
  const pole = await findPole(row, options);
  const probe = matchedFeed(row);
  const asked = { ...options, band: bandAround(guessHz), freqHz: samplesAround(pole) };
  const driven = await run(row, probe, asked);
  const inductance = probeInductance(row, probe.radiusMm, cellBeside(row, probe, asked));
  const z = driven.freqHz.map((freqHz, n) => {
    const { re, im } = driven.z[n]?.[0] ?? NOTHING;
    return { re, im: im + 2 * Math.PI * freqHz * inductance };
  });
  const read = readCurve({ freqHz: driven.freqHz, z }, pole.freqHz);
  return {
    ...read,
    chosen: chooseDefinition(row, read),
    quality: pole.q,
    probe,
    closedFormHz: guessHz,
    cells: driven.grid.cells,
  };
}

const NOTHING = { re: Number.NaN, im: Number.NaN };

/** The complex pole of the mode of a row, by the ringing of an open port. */
export async function findPole(row: PublishedRow, options: RowOptions): Promise<Resonance> {
  const guessHz = closedFormHz(row);
  const solution = await run(row, listeningFeed(row), { ...options, band: bandAround(guessHz), freqHz: [guessHz] });
  // Of what the port hears, the strong ring nearest to the closed form. For rectangles on thick layers that is far off;
  // discs and triangles have modes close to each other.
  const spread = row.outline.kind === 'rectangle' ? 0.1 : 0.03;
  const likeness = ({ freqHz, strength }: Resonance) => strength / (1 + ((freqHz / guessHz - 1) / spread) ** 2);
  const [best] = [...(solution.runs[0]?.resonances ?? [])].sort((a, b) => likeness(b) - likeness(a));
  if (!best) throw new Error(`${row.caseId}: no resonance near ${(guessHz / 1e9).toFixed(3)} GHz`);
  return best;
}

const bandAround = (hz: number) => ({ low: 0.7 * hz, high: 1.35 * hz });

/** Closely around the pole by its width, and evenly over the band. */
function samplesAround({ freqHz, q }: Resonance): number[] {
  const even = Array.from({ length: 241 }, (_, n) => freqHz * (0.75 + (0.55 * n) / 240));
  const close = Array.from({ length: 161 }, (_, n) => freqHz * (1 + ((n - 60) / 20) * (1 / q)));
  return [...even, ...close.filter((hz) => hz > 0.75 * freqHz && hz < 1.3 * freqHz)].sort((a, b) => a - b);
}

interface RunOptions extends RowOptions {
  readonly band: { readonly low: number; readonly high: number };
  readonly freqHz: readonly number[];
}

function run(row: PublishedRow, feed: Feed, options: RunOptions): Promise<Solution> {
  return solve(patchScene(row, feed), solveOptions(row, options));
}

const solveOptions = (
  row: PublishedRow,
  { quality, threads, asItIs = false, band, freqHz }: RunOptions,
): SolveOptions => ({
  band,
  freqHz,
  quality,
  rules: asItIs ? {} : rulesFor(row, quality),
  kernel: (input) => fastKernel(input, { threads }),
  allocate: wasmMemory({ isShared: threads > 1 }),
  mostPeriods: 1500,
});

/** m: mean of the cells around the probe. */
function cellBeside(row: PublishedRow, probe: Feed, options: RunOptions): number {
  const { x, y } = planScene(patchScene(row, probe), solveOptions(row, options)).model.grid.lines;
  return Math.sqrt(cellAt(x, 1e-3 * probe.atMm) * cellAt(y, 0));
}

function cellAt(lines: Float64Array, at: number): number {
  const nearest = lines.reduce(
    (best, line, n) => (Math.abs(line - at) < Math.abs((lines[best] ?? 0) - at) ? n : best),
    0,
  );
  const beside = [nearest - 1, nearest].map((n) => (lines[n + 1] ?? Number.NaN) - (lines[n] ?? Number.NaN));
  // At a plane of symmetry there is a cell on one side only.
  const cells = beside.filter((cell) => cell > 0);
  return cells.reduce((sum, cell) => sum + cell, 0) / cells.length;
}
