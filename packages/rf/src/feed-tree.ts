import { add, type Complex, complex, magnitude, multiply, reciprocal } from './complex.ts';
import { inputImpedance, lineTwoPort, type TwoPort, voltageTransfer } from './two-port.ts';

/** A feed harness as a tree, from its one input to its loads. Functions take the frequency in Hz. */
export type FeedNode =
  | { readonly kind: 'load'; readonly impedance: (freqHz: number) => Complex }
  | {
      readonly kind: 'line';
      readonly z0Ohm: number;
      readonly lengthM: number;
      readonly gamma: (freqHz: number) => Complex;
      readonly child: FeedNode;
    }
  | { readonly kind: 'junction'; readonly children: readonly FeedNode[] };

type Line = Extract<FeedNode, { kind: 'line' }>;

const portOf = (node: Line, freqHz: number): TwoPort => lineTwoPort({ ...node, gamma: node.gamma(freqHz) });

/** Impedance (ohm) of branches side by side. Throws RangeError when there are none. */
export function parallel(impedances: readonly Complex[]): Complex {
  if (impedances.length === 0) throw new RangeError('A junction must have at least one child.');
  return reciprocal(impedances.map(reciprocal).reduce(add));
}

/** Impedance (ohm) at the input of a harness. */
export function treeInputImpedance(node: FeedNode, freqHz: number): Complex {
  switch (node.kind) {
    case 'load':
      return node.impedance(freqHz);
    case 'line':
      return inputImpedance(portOf(node, freqHz), treeInputImpedance(node.child, freqHz));
    case 'junction':
      return parallel(node.children.map((child) => treeInputImpedance(child, freqHz)));
  }
}

/** What reaches one load when the input has 1 V. */
export interface Delivered {
  readonly voltage: Complex;
  readonly impedance: Complex;
  /** Share of the power that the input accepts. The shares add up to 1 less the loss of the lines. */
  readonly share: number;
}

/** Real part of V I*: the power (twice, as peak values) that a voltage brings into an impedance. */
const powerInto = (voltage: Complex, impedance: Complex): number => magnitude(voltage) ** 2 * reciprocal(impedance).re;

function voltages(node: FeedNode, freqHz: number, voltage: Complex): readonly Omit<Delivered, 'share'>[] {
  switch (node.kind) {
    case 'load':
      return [{ voltage, impedance: node.impedance(freqHz) }];
    case 'line': {
      const transfer = voltageTransfer(portOf(node, freqHz), treeInputImpedance(node.child, freqHz));
      return voltages(node.child, freqHz, multiply(voltage, transfer));
    }
    case 'junction':
      return node.children.flatMap((child) => voltages(child, freqHz, voltage));
  }
}

/** Voltage and share of power at every load, in the order of the tree: the excitation of an array and the loss of its harness. */
export function treeDelivered(node: FeedNode, freqHz: number): readonly Delivered[] {
  const accepted = powerInto(complex(1), treeInputImpedance(node, freqHz));
  return voltages(node, freqHz, complex(1)).map((load) => ({
    ...load,
    share: powerInto(load.voltage, load.impedance) / accepted,
  }));
}
