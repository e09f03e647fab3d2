/** How fine the grid is. */
export type Quality = 'draft' | 'normal' | 'fine';

export interface GridRules {
  /** Cells in the shortest wavelength of the densest medium around. */
  readonly cellsPerWavelength: number;
  /** Cells across the gap between two sheets, or across a dielectric layer. */
  readonly cellsAcrossGap: number;
  /** The cell at the edge of metal, relative to the cell across the nearest gap. */
  readonly edgeToGapCell: number;
  /** How much smaller the cells are along sheets that are short enough to resonate. */
  readonly standingWave: number;
  /** Cells on each side of an edge before they begin to grow. */
  readonly fringe: number;
  /** Cells across a strip, a slot or another narrow width. */
  readonly cellsAcrossWidth: number;
  /** Largest ratio of neighbouring cells. */
  readonly growth: number;
  /** Air between the structure and the absorbing layer, in wavelengths at the low end of the band. */
  readonly margin: number;
  /** Cells of the absorbing layer. */
  readonly layer: number;
}

export const GRID_RULES: Readonly<Record<Quality, GridRules>> = {
  draft: {
    cellsPerWavelength: 14,
    cellsAcrossGap: 2,
    edgeToGapCell: 1,
    standingWave: 1.3,
    fringe: 1,
    cellsAcrossWidth: 4,
    growth: 1.4,
    margin: 0.15,
    layer: 6,
  },
  normal: {
    cellsPerWavelength: 20,
    cellsAcrossGap: 3,
    edgeToGapCell: 1,
    standingWave: 1.6,
    fringe: 2,
    cellsAcrossWidth: 6,
    growth: 1.25,
    margin: 0.13,
    layer: 6,
  },
  fine: {
    cellsPerWavelength: 30,
    cellsAcrossGap: 5,
    edgeToGapCell: 1,
    standingWave: 1.6,
    fringe: 3,
    cellsAcrossWidth: 9,
    growth: 1.2,
    margin: 0.18,
    layer: 8,
  },
};
