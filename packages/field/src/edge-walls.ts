import { addTo, squared, type Turn, zeros } from './complex-field.ts';
import { FREE_SPACE_IMPEDANCE } from './constants.ts';
import { dualSpacings, type Grid, nearestLine, spacings } from './grid.ts';
import type { Layout } from './kernel.ts';
import { electricAlong, magneticAlong, strides } from './metal.ts';
import type { Model } from './model.ts';
import { outlineBounds, sheetDistance } from './outline.ts';
import { axisIndex, type PlanePoint, planeAxes, type Sheet } from './scene.ts';
import type { ComplexField } from './surface-sampler.ts';
import type { Axis, MagneticName } from './update.ts';

/** The field along the edge walls of one thick sheet, piece by piece, A/m times s. */
export interface WallFields {
  readonly conductivity: number;
  readonly pieces: readonly WallPiece[];
  /** Along the wall in the plane of the sheet: of currents across the sheet. */
  readonly inPlane: ComplexField;
  /** Along the normal of the sheet: of currents around it. */
  readonly upright: ComplexField;
}

/** A piece of wall between a node in metal and a free one beside it, one cell high. */
export interface WallPiece {
  /** Where H in the plane of the sheet is read, an element of this component. */
  readonly inPlane: Reading;
  /** Where H along its normal is read: the mean of these, 0 without any. */
  readonly upright: readonly Reading[];
  /** m^2 by which |H|^2 of each counts. */
  readonly inPlaneArea: number;
  readonly uprightArea: number;
}

interface Reading {
  readonly component: MagneticName;
  readonly i: number;
  readonly j: number;
  readonly k: number;
}

export interface EdgeWall {
  readonly conductivity: number;
  readonly pieces: readonly WallPiece[];
}

/** The edge walls of all thick sheets that have a conductivity. */
export const edgeWalls = (model: Model): EdgeWall[] =>
  model.scene.sheets.flatMap((sheet) =>
    sheet.thickness > 0 && sheet.conductivity !== undefined
      ? [{ conductivity: sheet.conductivity, pieces: wallPieces(model, sheet) }]
      : [],
  );

function wallPieces(model: Model, sheet: Sheet): WallPiece[] {
  const { grid } = model;
  const [u, v] = planeAxes(sheet.normal);
  const [fromU, toU] = windowOf(grid, sheet, { axis: u, n: 0 });
  const [fromV, toV] = windowOf(grid, sheet, { axis: v, n: 1 });
  const layers = [sheet.at, sheet.at + sheet.thickness].map((at) => nearestLine(grid.lines[sheet.normal], at));
  const [bottom, top] = layers as [number, number];
  const pieces: WallPiece[] = [];
  for (let k = bottom; k < top; k++) {
    for (let b = fromV; b <= toV; b++) {
      for (let a = fromU; a <= toU; a++) {
        for (const along of [0, 1] as const) {
          const piece = pieceAt(model, sheet, { a, b, k, along });
          if (piece) pieces.push(piece);
        }
      }
    }
  }
  return pieces;
}

/** Lines around the outline, with one to spare on each side. */
function windowOf(grid: Grid, sheet: Sheet, { axis, n }: { axis: Axis; n: 0 | 1 }): readonly [number, number] {
  const { low, high } = outlineBounds(sheet.outline);
  const lines = grid.lines[axis];
  return [
    Math.max(0, nearestLine(lines, low[n]) - 2),
    // The outermost lines have no faces beyond them.
    Math.min(lines.length - 2, nearestLine(lines, high[n]) + 1),
  ];
}

/** Two neighbour nodes (a, b) and the next one along u (0) or v (1), in the layer of cells k. */
interface Link {
  readonly a: number;
  readonly b: number;
  readonly k: number;
  readonly along: 0 | 1;
}

/** Pieces that the wall crosses at a smaller share than this are left to the links of the other axis. */
const LEAST_ACROSS = 0.25;

/**
 * A wall whose normal is (cos t, sin t) is seen by links along both axes. Those along u count by cos^2 t of its area, and read
 * cos t of the field in the plane, those along v the rest.
 */
function pieceAt(model: Model, sheet: Sheet, link: Link): WallPiece | undefined {
  const { grid, metal } = model;
  const { a, b, k, along } = link;
  const axes = planeAxes(sheet.normal);
  const element = elementAt(grid, sheet.normal, [a, b, k]);
  const mask = metal.inMetal[electricAlong(sheet.normal)];
  const other = element + strides(grid)[axes[along]];
  if (mask[element] === mask[other]) return undefined;
  const points = [pointAt(grid, axes, [a, b]), pointAt(grid, axes, along === 0 ? [a + 1, b] : [a, b + 1])] as const;
  const [hit, free] = (mask[element] ? points : [points[1], points[0]]) as readonly [PlanePoint, PlanePoint];
  const length = Math.abs(points[1][along] - points[0][along]);
  // Another sheet's metal.
  if (sheetDistance(sheet, ...hit) > length / 2) return undefined;
  const outside = Math.max(0, sheetDistance(sheet, ...free));
  const middle: PlanePoint = [(hit[0] + free[0]) / 2, (hit[1] + free[1]) / 2];
  const across = normalShare(sheet, middle, { along, step: length / 4 });
  if (across < LEAST_ACROSS) return undefined;
  const cross = axes[along === 0 ? 1 : 0];
  const width = dualSpacings(grid.lines[cross])[along === 0 ? b : a] as number;
  const area = width * (spacings(grid.lines[sheet.normal])[k] as number);
  return {
    inPlane: reading(magneticAlong(cross), sheet.normal, [a, b, k]),
    upright: uprightReadings(grid, sheet.normal, link),
    inPlaneArea: (area / across) * roundness(sheet, hit, outside / 2) ** 2,
    uprightArea: area * across,
  };
}

const elementAt = (grid: Grid, normal: Axis, [a, b, k]: readonly [number, number, number]): number => {
  const stride = strides(grid);
  const [u, v] = planeAxes(normal);
  return a * stride[u] + b * stride[v] + k * stride[normal];
};

const pointAt = (grid: Grid, [u, v]: readonly [Axis, Axis], [a, b]: readonly [number, number]): PlanePoint => [
  grid.lines[u][a] as number,
  grid.lines[v][b] as number,
];

function reading(component: MagneticName, normal: Axis, [a, b, k]: readonly [number, number, number]): Reading {
  const place: [number, number, number] = [0, 0, 0];
  const [u, v] = planeAxes(normal);
  place[axisIndex(u)] = a;
  place[axisIndex(v)] = b;
  place[axisIndex(normal)] = k;
  return { component, i: place[0], j: place[1], k: place[2] };
}

/** H along the normal lies in the middles of the cells on both sides of the link, on the planes below and above the layer. */
function uprightReadings(grid: Grid, normal: Axis, { a, b, k, along }: Link): Reading[] {
  const cross = planeAxes(normal)[along === 0 ? 1 : 0];
  const position = along === 0 ? b : a;
  // In a plane of magnetic symmetry it is 0; a metal one mirrors it.
  if (position === 0 && grid.sides[cross].low === 'magnetic') return [];
  const beside = position === 0 ? [0] : [0, -1];
  return beside.flatMap((back) =>
    [k, k + 1].map((plane) =>
      reading(magneticAlong(normal), normal, along === 0 ? [a, b + back, plane] : [a + back, b, plane]),
    ),
  );
}

/** How much of the normal of the nearest edge points along one axis, 0 to 1. */
function normalShare(
  sheet: Sheet,
  [pu, pv]: PlanePoint,
  { along, step }: { readonly along: 0 | 1; readonly step: number },
): number {
  const du = sheetDistance(sheet, pu + step, pv) - sheetDistance(sheet, pu - step, pv);
  const dv = sheetDistance(sheet, pu, pv + step) - sheetDistance(sheet, pu, pv - step);
  const size = Math.hypot(du, dv);
  return size === 0 ? 0 : Math.abs(along === 0 ? du : dv) / size;
}

/** Around a disc the field falls as 1/r: on the metal it is stronger than where it is read, at a distance outside. */
function roundness(sheet: Sheet, [u, v]: PlanePoint, outside: number): number {
  const nearest = [sheet.outline, ...(sheet.holes ?? [])].flatMap((outline, n) => {
    if (outline.kind !== 'disc') return [];
    const off = Math.hypot(u - outline.centre[0], v - outline.centre[1]) - outline.radius;
    return [{ off: Math.abs(off), factor: (outline.radius + (n === 0 ? outside : -outside)) / outline.radius }];
  });
  const edge = Math.abs(sheetDistance(sheet, u, v));
  return nearest.find(({ off }) => Math.abs(off - edge) < 1e-9)?.factor ?? 1;
}

export const emptyWall = ({ conductivity, pieces }: EdgeWall): WallFields => ({
  conductivity,
  pieces,
  inPlane: zeros(pieces.length),
  upright: zeros(pieces.length),
});

interface WallSample {
  readonly memory: Float32Array;
  readonly layout: Layout;
  readonly turn: Turn;
}

/** Adds one sample to the Fourier integrals. */
export function addWall(
  { inPlane, upright }: WallFields,
  { pieces }: EdgeWall,
  { memory, layout, turn }: WallSample,
): void {
  const { sx, ny } = layout.shape;
  const read = ({ component, i, j, k }: Reading) =>
    (memory[layout.fields[component] + (k * ny + j) * sx + i] as number) / FREE_SPACE_IMPEDANCE;
  pieces.forEach((piece, n) => {
    addTo(inPlane, n, read(piece.inPlane), turn);
    if (piece.upright.length === 0) return;
    const sum = piece.upright.reduce((total, one) => total + read(one), 0);
    addTo(upright, n, sum / piece.upright.length, turn);
  });
}

/** Integral of |H|^2 over the wall. */
export const squaredWall = ({ pieces, inPlane, upright }: WallFields): number =>
  pieces.reduce(
    (sum, { inPlaneArea, uprightArea }, n) =>
      sum + inPlaneArea * squared(inPlane, n) + uprightArea * squared(upright, n),
    0,
  );
