import { addTo, squared, type Turn, zeros } from './complex-field.ts';
import { FREE_SPACE_IMPEDANCE, MAGNETIC_CONSTANT } from './constants.ts';
import { addWall, edgeWalls, emptyWall, squaredWall, type WallFields } from './edge-walls.ts';
import { type Grid, nearestLine } from './grid.ts';
import type { Layout } from './kernel.ts';
import { electricAlong, strides } from './metal.ts';
import type { Model } from './model.ts';
import { outlineBounds, sheetDistance } from './outline.ts';
import { type Gauge, loopGauge } from './port-probes.ts';
import type { Observer } from './run.ts';
import { axisIndex, planeAxes, type Sheet, type Wire } from './scene.ts';
import type { ComplexField } from './surface-sampler.ts';
import type { Axis } from './update.ts';
import { isInGrid, spanOnGrid } from './wires.ts';

/** The magnetic field along one side of a sheet, in the middle of each cell; index b * cellsU + a. */
export interface SheetSide {
  /** Number of the sheet in the scene. */
  readonly sheet: number;
  /** +1: the side that looks along the normal; -1: the other. */
  readonly side: 1 | -1;
  readonly normal: Axis;
  /** m: the lines that bound the cells, along the two axes of the plane. */
  readonly u: Float64Array;
  readonly v: Float64Array;
  /** Part of each cell that is metal. */
  readonly share: Float64Array;
  /** A/m times s. */
  readonly hu: ComplexField;
  readonly hv: ComplexField;
}

/** Current along a wire, edge by edge, A times s. */
export interface WireCurrent {
  /** Number of the wire in the scene. */
  readonly wire: number;
  /** m: the lines at which the edges begin and end. */
  readonly lines: Float64Array;
  readonly current: ComplexField;
}

export interface MetalFields {
  readonly sides: readonly SheetSide[];
  readonly wires: readonly WireCurrent[];
  readonly walls: readonly WallFields[];
}

export const NO_METAL_FIELDS: MetalFields = { sides: [], wires: [], walls: [] };

export interface MetalSampler extends Observer {
  /** One for each frequency. */
  readonly fields: readonly MetalFields[];
}

export interface MetalRequest {
  readonly freqHz: readonly number[];
  /** Whether all metal is sampled, or only what has a conductivity and so a loss. */
  readonly all: boolean;
}

/** Adds up the Fourier integrals of the currents on sheets and wires. */
export function metalSampler(
  model: Model,
  { freqHz, all }: MetalRequest,
  timing: { dt: number; interval: number },
): MetalSampler {
  const { grid, scene } = model;
  const isWanted = ({ conductivity }: Sheet | Wire) => all || conductivity !== undefined;
  const places = scene.sheets.flatMap((sheet, n) => (isWanted(sheet) ? sidePlaces(model, sheet, n) : []));
  const wires = scene.wires.flatMap((wire, n) =>
    isWanted(wire) && isInGrid(grid, wire) ? [wireGauges(grid, wire, n)] : [],
  );
  const walls = edgeWalls(model);
  const fields = freqHz.map(
    (): MetalFields => ({ sides: places.map(emptySide), wires: wires.map(emptyWire), walls: walls.map(emptyWall) }),
  );
  const values = places.map(({ cells }) => ({
    hu: new Float64Array(cells.length),
    hv: new Float64Array(cells.length),
  }));
  return {
    fields,
    sample(memory, layout, time) {
      places.forEach((place, n) => {
        readSide(values[n] as SideValues, place, { memory, layout });
      });
      freqHz.forEach((freq, f) => {
        const phase = -2 * Math.PI * freq * (time + timing.dt / 2);
        const turn = { c: timing.interval * Math.cos(phase), s: timing.interval * Math.sin(phase) };
        const target = fields[f] as MetalFields;
        places.forEach(({ cells }, n) => {
          const side = target.sides[n] as SheetSide;
          addCells(side.hu, { cells, values: (values[n] as SideValues).hu }, turn);
          addCells(side.hv, { cells, values: (values[n] as SideValues).hv }, turn);
        });
        wires.forEach(({ gauges }, n) => {
          addWire((target.wires[n] as WireCurrent).current, gauges, { memory, layout, turn });
        });
        walls.forEach((wall, n) => {
          addWall(target.walls[n] as WallFields, wall, { memory, layout, turn });
        });
      });
    },
  };
}

interface SideValues {
  readonly hu: Float64Array;
  readonly hv: Float64Array;
}

interface SidePlace {
  readonly sheet: number;
  readonly side: 1 | -1;
  readonly normal: Axis;
  /** Index along the normal of the H nodes beside the plane. */
  readonly layer: number;
  readonly from: readonly [number, number];
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly share: Float64Array;
  /** Numbers of the cells that hold metal. */
  readonly cells: Uint32Array;
}

function sidePlaces(model: Model, sheet: Sheet, number: number): SidePlace[] {
  const { grid } = model;
  const lines = grid.lines[sheet.normal];
  const top = nearestLine(lines, sheet.at + sheet.thickness);
  const bottom = nearestLine(lines, sheet.at);
  if (Math.abs((lines[bottom] as number) - sheet.at) > 1e-9) return [];
  const [axisU, axisV] = planeAxes(sheet.normal);
  const { low, high } = outlineBounds(sheet.outline);
  const [fromU, u] = linesBetween(grid.lines[axisU], low[0], high[0]);
  const [fromV, v] = linesBetween(grid.lines[axisV], low[1], high[1]);
  const share = metalShare(sheet, u, v);
  const common = {
    sheet: number,
    normal: sheet.normal,
    from: [fromU, fromV] as const,
    u,
    v,
    share,
  };
  const place = (side: 1 | -1, layer: number): SidePlace => {
    const isCovered = coveredCells(model, { ...common, layer });
    return {
      ...common,
      side,
      layer,
      cells: Uint32Array.from([...share.keys()].filter((n) => share[n] !== 0 && !isCovered(n))),
    };
  };
  return [...(top < lines.length - 1 ? [place(1, top)] : []), ...(bottom > 0 ? [place(-1, bottom - 1)] : [])];
}

/** Cells of a side on which other metal stands: there is no field on the face, and beside it none that belongs to the face. */
function coveredCells(
  { grid, metal }: Model,
  { normal, from, u, layer }: Pick<SidePlace, 'normal' | 'from' | 'u' | 'layer'>,
): (cell: number) => boolean {
  const [axisU, axisV] = planeAxes(normal);
  const stride = strides(grid);
  const mask = metal.inMetal[electricAlong(normal)];
  const start = layer * stride[normal] + from[0] * stride[axisU] + from[1] * stride[axisV];
  const columns = u.length - 1;
  return (cell) => {
    const b = Math.floor(cell / columns);
    const corner = start + (cell - b * columns) * stride[axisU] + b * stride[axisV];
    const corners = [corner, corner + stride[axisU], corner + stride[axisV], corner + stride[axisU] + stride[axisV]];
    return corners.some((element) => mask[element] === 1);
  };
}

function linesBetween(lines: Float64Array, low: number, high: number): [number, Float64Array] {
  let from = 0;
  while (from < lines.length - 2 && (lines[from + 1] as number) <= low) from++;
  let to = lines.length - 1;
  while (to > from + 1 && (lines[to - 1] as number) >= high) to--;
  return [from, lines.slice(from, to + 1)];
}

/** Part of each cell inside the outline, from the distance of its middle to the edge. */
function metalShare(sheet: Sheet, u: Float64Array, v: Float64Array): Float64Array {
  const share = new Float64Array((u.length - 1) * (v.length - 1));
  for (let b = 0; b + 1 < v.length; b++) {
    for (let a = 0; a + 1 < u.length; a++) {
      const [u0, u1, v0, v1] = [u[a] as number, u[a + 1] as number, v[b] as number, v[b + 1] as number];
      const size = Math.min(u1 - u0, v1 - v0);
      const inside = 0.5 - sheetDistance(sheet, (u0 + u1) / 2, (v0 + v1) / 2) / size;
      share[b * (u.length - 1) + a] = Math.min(1, Math.max(0, inside));
    }
  }
  return share;
}

function emptySide({ sheet, side, normal, u, v, share }: SidePlace): SheetSide {
  return { sheet, side, normal, u, v, share, hu: zeros(share.length), hv: zeros(share.length) };
}

interface Sample {
  readonly memory: Float32Array;
  readonly layout: Layout;
}

/** H along u lies on the lines across u, in the middle along v; the mean of two lies in the middle of the cell. */
function readSide(out: SideValues, place: SidePlace, { memory, layout }: Sample): void {
  const [u, v] = planeAxes(place.normal);
  const stride = { x: 1, y: layout.shape.sx, z: layout.shape.sx * layout.shape.ny };
  const start = place.layer * stride[place.normal] + place.from[0] * stride[u] + place.from[1] * stride[v];
  const hu = layout.fields[`h${u}`] + start;
  const hv = layout.fields[`h${v}`] + start;
  const columns = place.u.length - 1;
  const scale = 0.5 / FREE_SPACE_IMPEDANCE;
  for (let m = 0; m < place.cells.length; m++) {
    const n = place.cells[m] as number;
    const b = Math.floor(n / columns);
    const at = (n - b * columns) * stride[u] + b * stride[v];
    out.hu[m] = scale * ((memory[hu + at] as number) + (memory[hu + at + stride[u]] as number));
    out.hv[m] = scale * ((memory[hv + at] as number) + (memory[hv + at + stride[v]] as number));
  }
}

interface CellValues {
  readonly cells: Uint32Array;
  readonly values: Float64Array;
}

function addCells({ re, im }: ComplexField, { cells, values }: CellValues, { c, s }: Turn): void {
  for (let m = 0; m < cells.length; m++) {
    const n = cells[m] as number;
    const value = values[m] as number;
    re[n] = (re[n] as number) + c * value;
    im[n] = (im[n] as number) + s * value;
  }
}

interface GaugedWire {
  readonly wire: number;
  readonly lines: Float64Array;
  readonly gauges: readonly Gauge[];
}

function wireGauges(grid: Grid, wire: Wire, number: number): GaugedWire {
  const span = spanOnGrid(grid, wire.from, wire.to);
  const n = axisIndex(span.axis);
  const first = span.node[n];
  const nodes = Array.from(
    { length: span.count },
    (_, e) =>
      span.node.map((value, m) => (m === n ? value + e : value)) as unknown as readonly [number, number, number],
  );
  return {
    wire: number,
    lines: grid.lines[span.axis].slice(first, first + span.count + 1),
    gauges: nodes.map((node) => loopGauge(grid, span.axis, node)),
  };
}

const emptyWire = ({ wire, lines, gauges }: GaugedWire): WireCurrent => ({
  wire,
  lines,
  current: zeros(gauges.length),
});

function addWire(
  target: ComplexField,
  gauges: readonly Gauge[],
  { memory, layout, turn }: Sample & { readonly turn: Turn },
): void {
  const { sx, ny } = layout.shape;
  gauges.forEach((gauge, n) => {
    const value = gauge.terms.reduce((sum, { probe, weight }) => {
      const element = layout.fields[probe.component] + (probe.k * ny + probe.j) * sx + probe.i;
      return sum + weight * (memory[element] as number);
    }, 0);
    addTo(target, n, value, turn);
  });
}

/** Surface resistance of a good conductor, ohm: sqrt(pi f mu0 / sigma) (D. M. Pozar, Microwave Engineering, eq. 1.125). */
export const surfaceResistance = (freqHz: number, conductivity: number): number =>
  Math.sqrt((Math.PI * freqHz * MAGNETIC_CONSTANT) / conductivity);

/**
 * W lost in metal of finite conductivity: half the surface resistance times |H|^2 over all sides and edge walls, by
 * perturbation (the currents are those on perfect metal). The mirrored halves are counted.
 */
export function metalLoss(model: Model, { sides, wires, walls }: MetalFields, freqHz: number): number {
  const copies = 2 ** Object.values(model.symmetry).filter((plane) => plane?.used).length;
  const inSheets = sides.reduce((sum, side) => {
    const conductivity = model.scene.sheets[side.sheet]?.conductivity;
    return conductivity === undefined ? sum : sum + (surfaceResistance(freqHz, conductivity) / 2) * squaredField(side);
  }, 0);
  const inWalls = walls.reduce(
    (sum, wall) => sum + (surfaceResistance(freqHz, wall.conductivity) / 2) * squaredWall(wall),
    0,
  );
  const inWires = wires.reduce((sum, one) => {
    const wire = model.scene.wires[one.wire];
    if (wire?.conductivity === undefined) return sum;
    // In a plane of symmetry half the wire carries half the current: together four halves' worth of loss, not two.
    const inPlane = 2 ** planesThrough(model, wire);
    const resistance = surfaceResistance(freqHz, wire.conductivity) / (2 * Math.PI * wire.radius);
    return sum + (resistance / 2) * inPlane * squaredCurrent(one);
  }, 0);
  return copies * (inSheets + inWalls + inWires);
}

function planesThrough({ symmetry }: Model, wire: Wire): number {
  return (['x', 'y', 'z'] as const).filter((axis) => {
    const n = axisIndex(axis);
    const plane = symmetry[axis];
    return plane?.used && Math.abs(wire.from[n] - plane.at) < 1e-9 && Math.abs(wire.to[n] - plane.at) < 1e-9;
  }).length;
}

function squaredField({ u, v, share, hu, hv }: SheetSide): number {
  const columns = u.length - 1;
  return share.reduce((sum, part, n) => {
    const [a, b] = [n % columns, Math.floor(n / columns)];
    const area = ((u[a + 1] as number) - (u[a] as number)) * ((v[b + 1] as number) - (v[b] as number));
    return sum + part * area * (squared(hu, n) + squared(hv, n));
  }, 0);
}

const squaredCurrent = ({ lines, current }: WireCurrent) =>
  current.re.reduce((sum, _, n) => sum + ((lines[n + 1] as number) - (lines[n] as number)) * squared(current, n), 0);

/** Current on a sheet seen as one layer, A/m times s: n x (H above - H below); index as in the sides. */
export interface SheetCurrent {
  readonly sheet: number;
  readonly freqHz: number;
  readonly normal: Axis;
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly share: Float64Array;
  readonly ku: ComplexField;
  readonly kv: ComplexField;
}

/** The currents of all sheets at one frequency; of a half that was solved, in that half. */
export function sheetCurrents({ sides }: MetalFields, freqHz: number): SheetCurrent[] {
  const numbers = [...new Set(sides.map(({ sheet }) => sheet))];
  return numbers.map((sheet) => {
    const own = sides.filter((side) => side.sheet === sheet);
    const [first] = own as [SheetSide];
    const ku = zeros(first.share.length);
    const kv = zeros(first.share.length);
    // u x v points along the normal for x and z, against it for y.
    const hand = first.normal === 'y' ? -1 : 1;
    for (const { side, hu, hv } of own) {
      for (let n = 0; n < first.share.length; n++) {
        addTo(ku, n, 1, { c: -hand * side * (hv.re[n] as number), s: -hand * side * (hv.im[n] as number) });
        addTo(kv, n, 1, { c: hand * side * (hu.re[n] as number), s: hand * side * (hu.im[n] as number) });
      }
    }
    const { normal, u, v, share } = first;
    return { sheet, freqHz, normal, u, v, share, ku, kv };
  });
}
