import type { Quality } from '@sheetwave/field';
import type { PublishedRow } from './published-row.ts';
import { findPole } from './solve-row.ts';

export interface ConvergenceRow {
  readonly caseId: string;
  /** Pole of the lowest mode on each grid, Hz. */
  readonly poleHz: Readonly<Record<Quality, number>>;
  /** From the grids of `normal` and `fine`, Hz. */
  readonly extrapolatedHz: number;
}

/** Cells across the layer, and so along the edges, of the two finer qualities: 3 and 5. */
const RATIO = 5 / 3;

/**
 * Between the first order of what is left of edges and the second of the scheme, as in the mesh error that the solver states. Of
 * the whole numbers the first leads 0.1 % above the independent solution of `test/physics/spectral-patch.ts`, the second below it.
 */
const ORDER = 1.5;

/** Resonance against the grid (L. F. Richardson, Phil. Trans. 210 (1911) 307): f = fine + (fine - normal)/(ratio^order - 1). */
export async function studyConvergence(row: PublishedRow, threads: number): Promise<ConvergenceRow> {
  const at = async (quality: Quality) => (await findPole(row, { quality, threads, asItIs: true })).freqHz;
  const poleHz = { draft: await at('draft'), normal: await at('normal'), fine: await at('fine') };
  return {
    caseId: row.caseId,
    poleHz,
    extrapolatedHz: poleHz.fine + (poleHz.fine - poleHz.normal) / (RATIO ** ORDER - 1),
  };
}

export const CONVERGENCE_TITLES: readonly string[] = [
  'case',
  'draft GHz',
  'normal GHz',
  'fine GHz',
  'extrapolated GHz',
  'draft off by %',
  'normal off by %',
];

export function convergenceCells({ caseId, poleHz, extrapolatedHz }: ConvergenceRow): string[] {
  const { draft, normal, fine } = poleHz;
  const offBy = (hz: number) => (100 * (hz / extrapolatedHz - 1)).toFixed(2);
  return [
    caseId,
    ...[draft, normal, fine, extrapolatedHz].map((hz) => (hz / 1e9).toFixed(4)),
    offBy(draft),
    offBy(normal),
  ];
}
