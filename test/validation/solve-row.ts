import { fastKernel, type Quality, type Resonance, type Solution, solve, wasmMemory } from '@sheetwave/field';
import { closedFormHz } from './closed-form.ts';
import { chooseDefinition, type Definition, type Read, readCurve } from './definitions.ts';
import { type Feed, listeningFeed, matchedFeed, patchScene, rulesFor } from './patch-scene.ts';
import type { PublishedRow } from './published-row.ts';

export interface RowOptions {
  readonly quality: Quality;
  readonly threads: number;
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
  const driven = await run(row, probe, { ...options, band: bandAround(guessHz), freqHz: samplesAround(pole) });
  const read = readCurve({ freqHz: driven.freqHz, z: driven.z.map(([z]) => z ?? NOTHING) }, pole.freqHz);
  return {
    ...read,
    chosen: chooseDefinition(read),
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
  // Of what the port hears, the strong ring nearest to the closed form.
  const likeness = ({ freqHz, strength }: Resonance) => strength / (1 + ((freqHz / guessHz - 1) / 0.1) ** 2);
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

function run(row: PublishedRow, feed: Feed, { quality, threads, band, freqHz }: RunOptions): Promise<Solution> {
  return solve(patchScene(row, feed), {
    band,
    freqHz,
    quality,
    rules: rulesFor(row, quality),
    kernel: (input) => fastKernel(input, { threads }),
    allocate: wasmMemory({ isShared: threads > 1 }),
    mostPeriods: 1500,
  });
}
