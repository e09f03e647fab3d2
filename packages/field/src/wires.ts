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

/** False for what a plane of symmetry has cut away with the lower half. */
export function isInGrid(grid: Grid, { from, to }: { readonly from: Position; readonly to: Position }): boolean {
  return (['x', 'y', 'z'] as const).every((axis) => {
    const n = axisIndex(axis);
    const lowest = grid.lines[axis][0] as number;
    return Math.max(from[n], to[n]) > lowest - 1e-9 && (from[n] === to[n] || Math.max(from[n], to[n]) > lowest + 1e-9);
  });
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

/** A wire on the grid. */
export interface GridWire {
  readonly span: Span;
  readonly radius: number;
  /** Whether the low and the high end stand free in space. */
  readonly free: readonly [boolean, boolean];
}

/** Enters a wire: its edges are metal, and the fields beside it get the factors of its radius. */
export function enterWire(grid: Grid, wire: GridWire, metal: Metal): void {
  for (const element of spanElements(grid, wire.span)) metal.inMetal[electric(wire.span.axis)][element] = 1;
  enterRadius(grid, wire, metal);
  wire.free.forEach((free, end) => {
    if (free) enterTip(grid, wire, end, metal);
  });
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
export function enterRadius(grid: Grid, wire: GridWire, metal: Metal): void {
  const [u, v] = planeAxes(wire.span.axis);
  for (const [across, other] of [
    [u, v],
    [v, u],
  ] as const) {
    enterSide(grid, wire, metal, { across, other, side: 0 });
    enterSide(grid, wire, metal, { across, other, side: -1 });
  }
}

interface WireSide {
  readonly across: Axis;
  readonly other: Axis;
  /** 0: the cell above the wire along `across`; -1: the one below. */
  readonly side: 0 | -1;
}

function enterSide(
  grid: Grid,
  { span, radius, free }: GridWire,
  metal: Metal,
  { across, other, side }: WireSide,
): void {
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
    // What leaves a free end comes from half a cell of wire only.
    const atTip = (n === 0 && free[0]) || (n === span.count && free[1]);
    const share = atTip ? TIP_SHARE * factor : factor;
    metal.edgeFactor[electric(across)].set(element, share);
  }
}

const TIP_SHARE = 0.55;

/**
 * The edge that leads on from a free tip. The field before the end of a line of charge is q/(4 pi eps r) along the line;
 * over the square of the dual face its flux is 0.127 q cell, and the voltage to the next node is
 * q/(4 pi eps) (2 ln(cell/radius) + ln 2).
 */
function enterTip(grid: Grid, { span, radius }: GridWire, end: number, metal: Metal): void {
  const n = axisIndex(span.axis);
  const beyond = end === 0 ? span.node[n] - 1 : span.node[n] + span.count;
  const length = spacings(grid.lines[span.axis])[beyond];
  if (length === undefined) return;
  const node = span.node.map((value, m) => (m === n ? beyond : value)) as [number, number, number];
  const factor = (4 * Math.PI * 0.1268) / (2 * Math.log(length / radius) + Math.LN2);
  metal.edgeFactor[electric(span.axis)].set(elementOf(grid, node), factor);
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

/** Ratio of the two fluxes of a 1/r field, relative to those of a uniform one. Radii up to 0.6 cells. */
export function wireFactor({ length, width, radius }: WireCell): number {
  const angle = 2 * Math.atan(width / length);
  return (angle * length) / (width * (Math.log(length / radius) - LATTICE_EXCESS));
}
