import { FREE_SPACE_IMPEDANCE } from './constants.ts';
import { dualSpacings, type Grid, spacings } from './grid.ts';
import type { Probe } from './kernel.ts';
import type { PortOnGrid } from './lumped.ts';
import { axisIndex } from './scene.ts';
import { type Axis, ELECTRIC_UPDATES, type MagneticName } from './update.ts';

/** A number made from recorded elements: the sum of weight times element. */
export interface Gauge {
  readonly terms: readonly { readonly probe: Probe; readonly weight: number }[];
}

export interface PortGauges {
  /** V, plus terminal against minus. */
  readonly volts: Gauge;
  /** A, out of the plus terminal into the structure; half a step after the voltage. */
  readonly amps: Gauge;
}

/** What is recorded at a port: the sum of E along its gap, and the mean of the loops of H around its edges. */
export function portGauges(grid: Grid, port: PortOnGrid): PortGauges {
  const { span, voltageScale, currentScale } = port;
  const cells = spacings(grid.lines[span.axis]);
  const nodes = Array.from({ length: span.count }, (_, n) => shifted(span.node, span.axis, n));
  const volts = nodes.map((node) => ({
    probe: place(`e${span.axis}`, node),
    weight: -span.sense * voltageScale * (cells[node[axisIndex(span.axis)]] as number),
  }));
  const loops = nodes.flatMap((node) => loopTerms(grid, span.axis, node));
  const perEdge = (span.sense * currentScale) / (span.count * FREE_SPACE_IMPEDANCE);
  return {
    volts: { terms: volts },
    amps: { terms: loops.map(({ probe, weight }) => ({ probe, weight: weight * perEdge })) },
  };
}

type Node = readonly [number, number, number];

const place = (component: Probe['component'], [i, j, k]: Node): Probe => ({ component, i, j, k });

const shifted = (node: Node, axis: Axis, by: number): Node =>
  node.map((value, n) => (n === axisIndex(axis) ? value + by : value)) as unknown as Node;

/** A, through the dual face of one edge, along the axis: in a wire on that edge, its current. */
export const loopGauge = (grid: Grid, axis: Axis, node: Node): Gauge => ({
  terms: loopTerms(grid, axis, node).map(({ probe, weight }) => ({ probe, weight: weight / FREE_SPACE_IMPEDANCE })),
});

/** The line integral of H around an edge; what would lie beyond a low plane of symmetry is left out, as in the update. */
function loopTerms(grid: Grid, axis: Axis, node: Node): { probe: Probe; weight: number }[] {
  const update = ELECTRIC_UPDATES.find(({ component }) => component === `e${axis}`);
  if (!update) throw new RangeError(`There is no axis ${axis}.`);
  return [
    { term: update.plus, sign: 1 },
    { term: update.minus, sign: -1 },
  ].flatMap(({ term, sign }) => {
    const own = term.of[1] as Axis;
    const length = dualSpacings(grid.lines[own])[node[axisIndex(own)]] as number;
    const back = shifted(node, term.axis, -1);
    const name = term.of as MagneticName;
    const ahead = { probe: place(name, node), weight: sign * length };
    return node[axisIndex(term.axis)] === 0 ? [ahead] : [ahead, { probe: place(name, back), weight: -sign * length }];
  });
}
