import { magnitude, subtract } from './complex.ts';
import { GRID_RULES, type GridRules, type Quality } from './quality.ts';
import type { MeshError, RunReport, Solution } from './solution.ts';

/** Cells of the second grid relative to the first. */
const COARSER = Math.SQRT2;

/** The rules of a quality for a grid with cells that much longer. */
export function coarserRules(quality: Quality, rules: Partial<GridRules>): GridRules {
  const own = { ...GRID_RULES[quality], ...rules };
  return {
    ...own,
    cellsPerWavelength: own.cellsPerWavelength / COARSER,
    cellsAcrossGap: own.cellsAcrossGap / COARSER,
    cellsAcrossWidth: own.cellsAcrossWidth / COARSER,
    growth: own.growth ** COARSER,
  };
}

/**
 * Order by which the error falls with the cell, between the first order of what is left of edges and the second of the
 * scheme; L. F. Richardson's extrapolation (Phil. Trans. 210 (1911) 307) then makes of the change between two grids what
 * is left of the finer: change / (ratio^order - 1).
 */
const ORDER = 1.5;
const REMAINING = 1 / (COARSER ** ORDER - 1);

/** What the difference between a solution and one on a coarser grid says about the error that is left in the first. */
export function meshErrorOf(fine: Solution, coarse: Solution): MeshError {
  const changes = fine.s.flatMap((matrix, f) =>
    matrix.flatMap((row, to) =>
      row.map((value, from) => magnitude(subtract(value, coarse.s[f]?.[to]?.[from] ?? value))),
    ),
  );
  const gains = fine.farFields.map(({ gainDbi }, n) => Math.abs(gainDbi - (coarse.farFields[n]?.gainDbi ?? gainDbi)));
  return {
    resonance: resonanceError(fine.runs, coarse.runs),
    s: REMAINING * Math.max(0, ...changes),
    gainDb: REMAINING * Math.max(0, ...gains),
  };
}

/** Of the strongest resonance against the nearest one on the other grid. */
function resonanceError([fine]: readonly RunReport[], [coarse]: readonly RunReport[]): number | undefined {
  const strongest = fine?.resonances.reduce((a, b) => (b.strength > a.strength ? b : a), fine.resonances[0] ?? NONE);
  if (!strongest || strongest === NONE || !coarse || coarse.resonances.length === 0) return undefined;
  const changes = coarse.resonances.map(({ freqHz }) => Math.abs(freqHz / strongest.freqHz - 1));
  return REMAINING * Math.min(...changes);
}

const NONE = { freqHz: 0, q: 0, strength: 0 };
