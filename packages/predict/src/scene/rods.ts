import type { Material } from '@sheetwave/design';
import type { Sheet } from '@sheetwave/field';
import {
  type Assembly,
  type Placement,
  type Point3,
  placePoint,
  type RodPart,
  type TubePart,
} from '@sheetwave/geometry';
import { squareOfRound } from './equivalent-radius.ts';
import { metres, planePoint } from './lengths.ts';
import type { ScenePart } from './scene-parts.ts';

/**
 * Rods and tubes guide a line over the reflector. Two cells across a round body give its impedance within 2 % (at : 1.5 mm
 * rod 2.1 mm up 101.6 ohm for 101.3, 2.5 mm tube 67.6 ohm for 66.5).
 */
const RESOLUTION = 0.35;

/** Across the grid a bar needs cells no wider than itself, or its metal falls apart. */
const SLANTED_RESOLUTION = 0.5;

interface Bar {
  readonly name: string;
  readonly from: Point3;
  readonly to: Point3;
  readonly diameterMm: number;
  readonly material: Material;
}

/**
 * Rods of a harness, their tubes and pins: along an axis as round bodies, else as square bars of the same capacitance. Bends are
 * sharp corners.
 */
export function rodParts(assembly: Assembly, drivenTopMm: number): ScenePart[] {
  const bars = assembly.placements.flatMap((placement): Bar[] => {
    const part = assembly.parts.find(({ id }) => id === placement.part);
    if (part?.form === 'rod') return rodBars(assembly, part, { placement, drivenTopMm });
    return part?.form === 'tube' ? [tubeBar(part, placement)] : [];
  });
  return bars.length === 0 ? [] : [{ path: 'harness', sheets: bars.map(barSheet) }];
}

interface RodPlace {
  readonly placement: Placement;
  readonly drivenTopMm: number;
}

/** The straight pieces between the corners of a rod. Free ends reach into what they are soldered to. */
function rodBars(assembly: Assembly, part: RodPart, { placement, drivenTopMm }: RodPlace): Bar[] {
  const placed = part.corners.map((corner) => placePoint(corner, placement)).map(tidy);
  const corners = placed.map((corner, n) =>
    reach(assembly, corner, { other: placed[n === 0 ? 1 : n - 1], isEnd: n === 0 || n === placed.length - 1 }),
  );
  return corners.slice(1).flatMap((to, n): Bar[] => {
    const from = corners[n];
    if (!from) return [];
    // A pin beside a flat bar stands on its underside: a face in the middle of the bar would only cost cells.
    const sinkMm = isSlanted(placement) ? squareOfRound(part.rod.diameterMm) / 2 : 0;
    const upright = Math.abs(from.z - to.z) > 1e-6;
    const lowMm = Math.min(from.z, to.z);
    const below = (point: Point3): Point3 => ({
      ...point,
      z: upright && point.z === lowMm ? point.z - sinkMm : Math.min(point.z, drivenTopMm),
    });
    return [
      { name: part.id, from: below(from), to: below(to), diameterMm: part.rod.diameterMm, material: part.rod.material },
    ];
  });
}

const isSlanted = ({ turnDeg }: Placement): boolean => Math.abs(turnDeg / 90 - Math.round(turnDeg / 90)) > 1e-9;

/** Height of the lowest metal of the rods at the coax, as the scene has them, mm. */
export function rodUndersideMm({ design: { harness }, parts, placements }: Assembly): number {
  if (harness.kind !== 'rod') throw new Error('a harness of rods has an underside');
  const diameterMm = harness.levels[0]?.rod.diameterMm ?? 0;
  const flat = placements.some((placement) => isSlanted(placement) && isRod(parts, placement.part));
  return harness.heightMm - (flat ? squareOfRound(diameterMm) : diameterMm) / 2;
}

const isRod = (parts: Assembly['parts'], id: string): boolean => parts.find((part) => part.id === id)?.form === 'rod';

/** Turning leaves dust; on a grid of a nanometre a rod along an axis stays along it. */
const tidy = ({ x, y, z }: Point3): Point3 => {
  const clean = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;
  return { x: clean(x), y: clean(y), z: clean(z) };
};

interface End {
  readonly other: Point3 | undefined;
  readonly isEnd: boolean;
}

/** A rod that butts against another, or against the coax's pin, is carried on to that one's axis. */
function reach(assembly: Assembly, end: Point3, { other, isEnd }: End): Point3 {
  if (!isEnd || !other || end.z !== other.z) return end;
  const joints = assembly.harness.flatMap((split) => [split.at, ...split.arms.flatMap((arm) => arm.at(-1)?.to ?? [])]);
  const longest = Math.max(...assembly.parts.map((part) => (part.form === 'rod' ? part.rod.diameterMm : 0)));
  const joint = joints.find(({ x, y }) => Math.hypot(x - end.x, y - end.y) <= longest);
  return joint ? { ...joint, z: end.z } : end;
}

function tubeBar({ id, tube, lengthMm }: TubePart, placement: Placement): Bar {
  const to = placePoint({ x: lengthMm, y: 0, z: 0 }, placement);
  return { name: id, from: tidy(placement.at), to: tidy(to), diameterMm: tube.outerMm, material: tube.material };
}

function barSheet(bar: Bar): Sheet {
  const { name, from, to, diameterMm, material } = bar;
  const common = { name, conductivity: material.conductivitySm, resolution: RESOLUTION };
  const radius = metres(diameterMm / 2);
  const along = (['x', 'y', 'z'] as const).filter((axis) => Math.abs(from[axis] - to[axis]) > 1e-6);
  const [axis] = along;
  if (along.length !== 1 || !axis) return { ...common, ...slantedBar(bar), resolution: SLANTED_RESOLUTION };
  const [low, high] = [Math.min(from[axis], to[axis]), Math.max(from[axis], to[axis])];
  const [x, y, z] = [metres(from.x), metres(from.y), metres(from.z)];
  const centre = axis === 'x' ? ([y, z] as const) : axis === 'y' ? ([x, z] as const) : ([x, y] as const);
  return {
    ...common,
    normal: axis,
    at: metres(low),
    thickness: metres(high) - metres(low),
    outline: { kind: 'disc', centre, radius },
  };
}

/** A bar that lies flat in any direction. */
function slantedBar({ from, to, diameterMm }: Bar): Pick<Sheet, 'normal' | 'at' | 'thickness' | 'outline'> {
  const side = squareOfRound(diameterMm);
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const [u, v] = [((to.y - from.y) / length) * (side / 2), ((to.x - from.x) / length) * (side / 2)];
  const corners = [
    { x: from.x + u, y: from.y - v },
    { x: to.x + u, y: to.y - v },
    { x: to.x - u, y: to.y + v },
    { x: from.x - u, y: from.y + v },
  ];
  return {
    normal: 'z',
    at: metres(from.z - side / 2),
    thickness: metres(side),
    outline: { kind: 'polygon', points: corners.map(planePoint) },
  };
}
