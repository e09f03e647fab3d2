import { type Grid, nearestLine, nodeCounts, spacings } from './grid.ts';
import { type Metal, strides } from './metal.ts';
import { axisIndex, axisOfSpan, type Position, planeAxes } from './scene.ts';
import type { Axis, ElectricName, MagneticName } from './update.ts';

/** A row of edges of the grid along an axis. */
export interface Span {
  readonly axis: Axis;
  /** Nodes of the lower end. */
  readonly node: readonly [number, number, number];
  /** Number of edges. */
  readonly count: number;
  /** +1 when the span runs along the axis, -1 against it. */
  readonly sense: 1 | -1;
}

/** The edges nearest to a straight piece. At a plane of symmetry only the part inside the grid is left. */
export function spanOnGrid(grid: Grid, from: Position, to: Position): Span {
  const axis = axisOfSpan(from, to) ?? 'x';
  const n = axisIndex(axis);
  const first = (['x', 'y', 'z'] as const).map((each) => nearestLine(grid.lines[each], from[axisIndex(each)]));
  const last = nearestLine(grid.lines[axis], to[n]);
  const low = Math.min(first[n] as number, last);
  const count = Math.abs(last - (first[n] as number));
  const node = first.map((value, m) => (m === n ? low : value)) as [number, number, number];
  return { axis, node, count, sense: to[n] > from[n] ? 1 : -1 };
}

export const elementOf = (grid: Grid, node: readonly [number, number, number]): number => {
  const { nx, ny } = nodeCounts(grid);
  return (node[2] * ny + node[1]) * nx + node[0];
};

/** The element numbers of the edges of a span. */
export function spanElements(grid: Grid, span: Span): number[] {
  const start = elementOf(grid, span.node);
  return Array.from({ length: span.count }, (_, n) => start + n * strides(grid)[span.axis]);
}

/** Enters a wire: its edges are metal, and the fields beside it get the factors of its radius. */
export function enterWire(grid: Grid, span: Span, radius: number, metal: Metal): void {
  for (const element of spanElements(grid, span)) metal.inMetal[electric(span.axis)][element] = 1;
  enterRadius(grid, span, radius, metal);
}

const electric = (axis: Axis): ElectricName => `e${axis}`;
const magnetic = (axis: Axis): MagneticName => `h${axis}`;

/**
 * Difference between the logarithm that a lattice of equal cells gives a line of current and the one its nearest links
 * alone would give: (Euler's constant + 1.5 ln 2 - pi/2), from the potential of a point source on the square lattice
 * (W. H. McCrea and F. J. W. Whipple, Proc. R. Soc. Edinburgh 60 (1940) 281).
 */
const LATTICE_EXCESS = 0.0461;

/**
 * In-cell correction: the field between a wire and its neighbour nodes falls as 1/r, so that the faces around the wire
 * hold the flux of ln(cell/radius), and the edges that leave it have the capacitance to match
 * (R. Holland and L. Simpson, IEEE Trans. EMC-23 (1981) 88; K. R. Umashankar et al., IEEE Trans. AP-35 (1987) 1248).
 */
export function enterRadius(grid: Grid, span: Span, radius: number, metal: Metal): void {
  const [u, v] = planeAxes(span.axis);
  for (const [across, other] of [
    [u, v],
    [v, u],
  ] as const) {
    enterSide(grid, span, metal, { across, other, radius, side: 0 });
    enterSide(grid, span, metal, { across, other, radius, side: -1 });
  }
}

interface WireSide {
  readonly across: Axis;
  readonly other: Axis;
  readonly radius: number;
  /** 0: the cell above the wire along `across`; -1: the one below. */
  readonly side: 0 | -1;
}

function enterSide(grid: Grid, span: Span, metal: Metal, { across, other, radius, side }: WireSide): void {
  const node = span.node[axisIndex(across)] + side;
  const cells = spacings(grid.lines[across]);
  const length = cells[node];
  if (length === undefined) return;
  const width = meanCell(grid.lines[other], span.node[axisIndex(other)]);
  const factor = wireFactor({ length, width, radius });
  const stride = strides(grid);
  const start = elementOf(grid, span.node) + side * stride[across];
  for (let n = 0; n <= span.count; n++) {
    const element = start + n * stride[span.axis];
    if (n < span.count) metal.faceFactor[magnetic(other)].set(element, factor);
    // At its two ends the wire covers half of what surrounds the leaving edge.
    const share = n === 0 || n === span.count ? (1 + factor) / 2 : factor;
    metal.edgeFactor[electric(across)].set(element, share);
  }
}

function meanCell(lines: Float64Array, n: number): number {
  const cells = spacings(lines);
  const beside = [cells[n - 1], cells[n]].filter((cell) => cell !== undefined);
  return beside.reduce((sum, cell) => sum + cell, 0) / beside.length;
}

interface WireCell {
  /** Cell across the wire, from the wire to the next node. */
  readonly length: number;
  /** Width of the dual face. */
  readonly width: number;
  readonly radius: number;
}

/** Ratio of the two fluxes of a 1/r field, relative to those of a uniform one. Wires up to 0.5 cells. */
export function wireFactor({ length, width, radius }: WireCell): number {
  const angle = 2 * Math.atan(width / length);
  return (angle * length) / (width * (Math.log(length / radius) - LATTICE_EXCESS));
}
