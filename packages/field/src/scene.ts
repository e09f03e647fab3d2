import type { Axis } from './update.ts';

/** x, y, z in m. */
export type Position = readonly [x: number, y: number, z: number];

/** Two coordinates in the plane of a sheet, m: the two axes across its normal in the order x, y, z. */
export type PlanePoint = readonly [u: number, v: number];

/** A closed curve in a plane: a polygon (not crossing itself; either sense) or a disc. */
export type Outline =
  | { readonly kind: 'polygon'; readonly points: readonly PlanePoint[] }
  | { readonly kind: 'disc'; readonly centre: PlanePoint; readonly radius: number };

/** Metal in a plane. With a thickness it fills `at` to `at + thickness` along its normal. */
export interface Sheet {
  readonly name: string;
  readonly normal: Axis;
  /** m, along the normal. */
  readonly at: number;
  /** m; 0 for a sheet without thickness. */
  readonly thickness: number;
  readonly outline: Outline;
  readonly holes?: readonly Outline[];
  /** S/m; left out for a perfect conductor. */
  readonly conductivity?: number;
  /** Cells across it as a share of what the quality asks for, above 0; default 1. Less for what hardly matters. */
  readonly resolution?: number;
}

export type SolidShape =
  | { readonly kind: 'box'; readonly low: Position; readonly high: Position }
  | {
      readonly kind: 'cylinder';
      readonly axis: Axis;
      /** Centre in the plane across the axis, axes in the order x, y, z. */
      readonly centre: PlanePoint;
      readonly radius: number;
      /** m, along the axis. */
      readonly from: number;
      readonly to: number;
    };

/** A dielectric body. A later one replaces an earlier one where they overlap. Faces of a box may lie at infinity. */
export interface Solid {
  readonly name: string;
  readonly shape: SolidShape;
  /** Relative, 1 or above. */
  readonly permittivity: number;
  /** Loss tangent at the centre of the band; constant conductivity in between. Default 0. */
  readonly lossTangent?: number;
  /** Cells across it as a share of what the quality asks for, above 0; default 1. */
  readonly resolution?: number;
}

/** A round wire along an axis, thinner than the cells around it. */
export interface Wire {
  readonly name: string;
  readonly from: Position;
  readonly to: Position;
  /** m. */
  readonly radius: number;
  readonly conductivity?: number;
}

/** A generator with an inner resistance, along an axis between two metal parts. */
export interface Port {
  readonly name: string;
  /** Minus terminal. */
  readonly from: Position;
  /** Plus terminal: the current into the structure leaves the port here. */
  readonly to: Position;
  /** Inner resistance and reference impedance, ohm. */
  readonly resistance: number;
  /** m; when the port sits in the gap of a wire, the radius of that wire. Leave it out for a port that only listens. */
  readonly radius?: number;
}

/** A resistor, inductor and capacitor in parallel (any of them), along an axis. */
export interface LumpedElement {
  readonly name: string;
  readonly from: Position;
  readonly to: Position;
  /** ohm. */
  readonly resistance?: number;
  /** H. */
  readonly inductance?: number;
  /** F. */
  readonly capacitance?: number;
}

/** Where the space ends without an absorbing layer: perfect metal, or a plane of magnetic symmetry (low side only). */
export interface Wall {
  readonly kind: 'metal' | 'magnetic';
  /** m, along the axis of the wall. */
  readonly at: number;
}

export type WallName = 'xLow' | 'xHigh' | 'yLow' | 'yHigh' | 'zLow' | 'zHigh';

/** What is to be solved. Plain data; lengths in m. */
export interface Scene {
  readonly sheets: readonly Sheet[];
  readonly solids: readonly Solid[];
  readonly wires: readonly Wire[];
  readonly ports: readonly Port[];
  readonly elements?: readonly LumpedElement[];
  /** Sides that are left out are open: they end in an absorbing layer. */
  readonly walls?: Readonly<Partial<Record<WallName, Wall>>>;
  /**
   * m: where an open side begins, through the structure if need be. What reaches beyond goes on for ever: it runs
   * through the absorbing layer. Left out, the space ends in air around the structure.
   */
  readonly openAt?: Readonly<Partial<Record<WallName, number>>>;
}

/** Frequencies in Hz between which answers are wanted. */
export interface Band {
  readonly low: number;
  readonly high: number;
}

const AXIS_INDEX: Readonly<Record<Axis, 0 | 1 | 2>> = { x: 0, y: 1, z: 2 };
export const axisIndex = (axis: Axis): 0 | 1 | 2 => AXIS_INDEX[axis];

/** The two axes across this one, in the order x, y, z: the plane of a sheet with this normal. */
export function planeAxes(normal: Axis): readonly [Axis, Axis] {
  if (normal === 'x') return ['y', 'z'];
  return normal === 'y' ? ['x', 'z'] : ['x', 'y'];
}

/** The axis along which two points differ; undefined unless they differ along exactly one. */
export function axisOfSpan(from: Position, to: Position): Axis | undefined {
  const differing = (['x', 'y', 'z'] as const).filter((axis) => from[axisIndex(axis)] !== to[axisIndex(axis)]);
  return differing.length === 1 ? differing[0] : undefined;
}
