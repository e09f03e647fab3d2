import { ELECTRIC_CONSTANT } from './constants.ts';
import { dualSpacings, type Grid, spacings } from './grid.ts';
import { axisIndex, type LumpedElement, type Port, planeAxes } from './scene.ts';
import type { Symmetry } from './symmetry.ts';
import { AXES, type Axis } from './update.ts';
import { type Span, spanElements, spanOnGrid } from './wires.ts';

/** What lies parallel to one edge of the grid. */
export interface EdgeLoad {
  readonly axis: Axis;
  readonly node: readonly [number, number, number];
  /** Index as in `Metal`. */
  readonly element: number;
  /** S. */
  readonly conductance: number;
  /** F. */
  readonly capacitance: number;
  /** 1/H. */
  readonly inverseInductance: number;
  /** V across this edge, along the axis, for 1 V of the generator of the port of this number. */
  readonly drive?: { readonly port: number; readonly volts: number };
}

export interface PortOnGrid {
  readonly span: Span;
  /** Voltage of the whole port for 1 V across the part inside the grid. */
  readonly voltageScale: number;
  /** The same for the current. */
  readonly currentScale: number;
}

/** How the whole and the part that a symmetry leaves are related, for a span of the whole structure. */
function shares(symmetry: Symmetry, span: Span): { series: number; parallel: number } {
  let series = 1;
  let parallel = 1;
  for (const axis of AXES) {
    const plane = symmetry[axis];
    if (!plane?.used) continue;
    if (axis === span.axis && plane.kind === 'metal') series *= 2;
    if (axis !== span.axis && plane.kind === 'magnetic' && span.node[axisIndex(axis)] === 0) parallel *= 2;
  }
  return { series, parallel };
}

export interface LoadContext {
  readonly grid: Grid;
  readonly symmetry: Symmetry;
}

export function portOnGrid({ grid, symmetry }: LoadContext, port: Port): PortOnGrid {
  const span = spanOnGrid(grid, port.from, port.to);
  const { series, parallel } = shares(symmetry, span);
  return { span, voltageScale: series, currentScale: parallel };
}

/** The loads of one port: its resistance and its generator, spread over the edges of its gap. */
export function portLoads(context: LoadContext, port: Port, number: number): EdgeLoad[] {
  const { span, voltageScale, currentScale } = portOnGrid(context, port);
  const edges = span.count * voltageScale;
  const conductance = edges / (port.resistance * currentScale);
  return loads(context, span, {
    conductance,
    capacitance: 0,
    inverseInductance: 0,
    // The generator drives current along the span, against the field that its own voltage makes.
    drive: { port: number, volts: -span.sense / edges },
  });
}

export function elementLoads(context: LoadContext, element: LumpedElement): EdgeLoad[] {
  const span = spanOnGrid(context.grid, element.from, element.to);
  const { series, parallel } = shares(context.symmetry, span);
  const edges = span.count * series;
  return loads(context, span, {
    conductance: element.resistance === undefined ? 0 : edges / (element.resistance * parallel),
    capacitance: ((element.capacitance ?? 0) * edges) / parallel,
    inverseInductance: element.inductance === undefined ? 0 : edges / (element.inductance * parallel),
  });
}

type LoadValues = Omit<EdgeLoad, 'axis' | 'node' | 'element'>;

function loads({ grid }: LoadContext, span: Span, values: LoadValues): EdgeLoad[] {
  return spanElements(grid, span).map((element, n) => {
    const node = span.node.map((value, m) => (m === axisIndex(span.axis) ? value + n : value));
    return { axis: span.axis, element, node: node as [number, number, number], ...values };
  });
}

/** Capacitance of an edge of the grid in vacuum, F: eps0 times its dual area over its length. */
export function edgeCapacitance(grid: Grid, axis: Axis, node: readonly [number, number, number]): number {
  const [u, v] = planeAxes(axis);
  const length = spacings(grid.lines[axis])[node[axisIndex(axis)]] as number;
  const width = (across: Axis) => dualSpacings(grid.lines[across])[node[axisIndex(across)]] as number;
  return (ELECTRIC_CONSTANT * width(u) * width(v)) / length;
}
