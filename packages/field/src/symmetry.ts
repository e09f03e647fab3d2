import { axisIndex, axisOfSpan, type Port, type Scene } from './scene.ts';
import { type MirroredPort, portsMirrored, sceneMirrors } from './scene-mirror.ts';
import { AXES, type Axis } from './update.ts';

/** A plane across an axis in which the scene and its fields mirror. `metal`: E across it; `magnetic`: E along it. */
export interface SymmetryPlane {
  readonly at: number;
  readonly kind: 'metal' | 'magnetic';
  /** Whether only the high half is solved. */
  readonly used: boolean;
}

/** A plane in which the scene mirrors while ports change places: the run of one port answers for its image too. */
export interface PortPlane {
  readonly at: number;
  readonly kind: 'ports';
  readonly used: false;
  readonly ports: readonly MirroredPort[];
}

export type Symmetry = Readonly<Partial<Record<Axis, SymmetryPlane | PortPlane>>>;

/**
 * The planes of symmetry of a scene. `use: false` finds them too, so that the grid has a line there and is the same in
 * both cases, but leaves the scene whole.
 */
export function findSymmetry(scene: Scene, { use }: { readonly use: boolean }): Symmetry {
  const found: Partial<Record<Axis, SymmetryPlane | PortPlane>> = {};
  for (const axis of AXES) {
    const plane = planeAcross(scene, axis, use);
    if (plane) found[axis] = plane;
  }
  return found;
}

const middleOf = ({ from, to }: Port, axis: Axis) => (from[axisIndex(axis)] + to[axisIndex(axis)]) / 2;

/** The first port mirrors into itself or into another one: that leaves few places for a plane. */
function planeAcross(scene: Scene, axis: Axis, use: boolean): SymmetryPlane | PortPlane | undefined {
  const [first] = scene.ports;
  if (!first) return undefined;
  const places = scene.ports.map((port) => (middleOf(first, axis) + middleOf(port, axis)) / 2);
  for (const at of new Set(places)) {
    const ports = portsMirrored(scene, axis, at);
    if (!ports || !sceneMirrors(scene, axis, at)) continue;
    const kinds = scene.ports.map(({ from, to }) => (axisOfSpan(from, to) === axis ? 'metal' : 'magnetic'));
    const isHalved = ports.every(({ to }, n) => to === n && kinds[n] === kinds[0]);
    return isHalved ? { at, kind: kinds[0] ?? 'magnetic', used: use } : { at, kind: 'ports', used: false, ports };
  }
  return undefined;
}
