/**
 * Radius of the round rod that has the same capacitance as a rod with a regular polygon as its section, for sides of
 * length 1: Gamma(1/n) / (2^(1 + 2/n) sqrt(pi) Gamma(1/2 + 1/n)) (G. Polya and G. Szego, Isoperimetric Inequalities in
 * Mathematical Physics, 1951, table of outer radii; memory): 0.5902 for a square, 0.9203 for a hexagon.
 */
const SQUARE = 0.5902;
const HEXAGON = 0.9203;

/** Side of the square rod that stands for a round one, mm. */
export const squareOfRound = (diameterMm: number): number => diameterMm / 2 / SQUARE;

/** Diameter of the round rod that stands for a hexagonal one of this width across flats, mm. */
export const roundOfHexagon = (acrossMm: number): number => (2 * HEXAGON * acrossMm) / Math.sqrt(3);
