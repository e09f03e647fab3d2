import { axisNumbers } from './absorber.ts';
import { ELECTRIC_CONSTANT, SPEED_OF_LIGHT } from './constants.ts';
import { enterSheets } from './enter-sheets.ts';
import { type Grid, nodeCounts, spacings, timeStep } from './grid.ts';
import type { KernelInput, MemoryMaker, Probe, RowOperation } from './kernel.ts';
import { type EdgeLoad, edgeCapacitance, elementLoads, portLoads } from './lumped.ts';
import { type CellMaterial, cellMaterial, edgeMean } from './material.ts';
import { buildMemory, type ElectricRow, type RowPlace } from './memory.ts';
import { type Metal, noMetal, strides } from './metal.ts';
import { solidBox } from './planes.ts';
import { axisIndex, planeAxes, type Scene } from './scene.ts';
import { tameFactors } from './stability.ts';
import type { Symmetry } from './symmetry.ts';
import { AXES, type Axis, type ElectricName, type MagneticName } from './update.ts';
import { elementOf, enterRadius, enterWire, isInGrid, type Span, spanOnGrid } from './wires.ts';

/** A scene on its grid: everything that the coefficients of the update are made from. */
export interface Model {
  readonly grid: Grid;
  readonly scene: Scene;
  readonly symmetry: Symmetry;
  /** s. */
  readonly dt: number;
  readonly metal: Metal;
  readonly material: CellMaterial | undefined;
  readonly loads: Loads;
  /** rad/m along an axis at a place, at the centre of the band, in the densest medium there. */
  readonly waveNumber: (axis: Axis, place: number) => number;
  /** Whether each sheet met any node of the grid. */
  readonly sheetsMet: readonly boolean[];
}

/** Loads by the axis and the element of their edge. */
export type Loads = Readonly<Record<Axis, ReadonlyMap<number, EdgeLoad>>>;

export interface ModelRequest {
  readonly grid: Grid;
  readonly scene: Scene;
  readonly symmetry: Symmetry;
  /** Where loss tangents hold, Hz. */
  readonly centreHz: number;
  /** Part of the time step that the stability limit allows; default 1. */
  readonly stepShare?: number;
  /** Whether the dispersion of the grid is made good at the centre of the band; default true. */
  readonly compensate?: boolean;
}

export function buildModel({ grid, scene, symmetry, centreHz, stepShare = 1, compensate = true }: ModelRequest): Model {
  const metal = noMetal(grid);
  const sheetsMet = enterSheets(grid, scene.sheets, metal);
  enterWires(grid, scene, metal);
  const dt = timeStep(grid) * stepShare;
  tameFactors(grid, dt, metal);
  const all = [
    ...scene.ports.flatMap((port, n) => portLoads({ grid, symmetry }, port, n)),
    ...(scene.elements ?? [])
      .filter((element) => isInGrid(grid, element))
      .flatMap((element) => elementLoads({ grid, symmetry }, element)),
  ];
  const along = (axis: Axis) =>
    new Map(all.filter((load) => load.axis === axis).map((load) => [load.element, load] as const));
  return {
    grid,
    scene,
    symmetry,
    dt,
    metal,
    material: cellMaterial(grid, scene, centreHz),
    waveNumber: waveNumberAlong(scene, compensate ? centreHz : 0),
    loads: { x: along('x'), y: along('y'), z: along('z') },
    sheetsMet,
  };
}

function enterWires(grid: Grid, scene: Scene, metal: Metal): void {
  const spans = [...scene.wires, ...scene.ports, ...(scene.elements ?? [])]
    .filter((one) => isInGrid(grid, one))
    .map((one) => ({ one, span: spanOnGrid(grid, one.from, one.to) }));
  const touched = spans.map(({ span }) => [endElement(grid, span, 0), endElement(grid, span, 1)] as const);
  spans.forEach(({ one, span }, n) => {
    if (!('radius' in one) || one.radius === undefined) return;
    const isFree = (end: 0 | 1) =>
      !touched.some((ends, m) => m !== n && ends.includes(touched[n]?.[end] as number)) &&
      !isOnBoundary(grid, span, end) &&
      !touchesMetal(grid, touched[n]?.[end] as number, metal, span);
    const wire = { span, radius: one.radius, free: [isFree(0), isFree(1)] as const };
    if ('resistance' in one) enterRadius(grid, { ...wire, free: [false, false] }, metal);
    else enterWire(grid, wire, metal);
  });
}

const endElement = (grid: Grid, span: Span, end: 0 | 1) =>
  elementOf(grid, span.node) + end * span.count * strides(grid)[span.axis];

function isOnBoundary(grid: Grid, span: Span, end: 0 | 1): boolean {
  const position = span.node[axisIndex(span.axis)] + end * span.count;
  return position === 0 || position === grid.lines[span.axis].length - 1;
}

/** Whether an edge in metal, other than along the wire itself, meets this node. */
function touchesMetal(grid: Grid, node: number, metal: Metal, span: Span): boolean {
  return planeAxes(span.axis).some((axis) => {
    const mask = metal.inMetal[`e${axis}`];
    return mask[node] === 1 || mask[node - strides(grid)[axis]] === 1;
  });
}

function waveNumberAlong(scene: Scene, freqHz: number): Model['waveNumber'] {
  const vacuum = (2 * Math.PI * freqHz) / SPEED_OF_LIGHT;
  const boxes = scene.solids.map((solid) => [solidBox(solid), solid.permittivity] as const);
  return (axis, place) => {
    const n = axisIndex(axis);
    const densest = boxes.reduce(
      (most, [[low, high], permittivity]) =>
        place >= low[n] && place <= high[n] ? Math.max(most, permittivity) : most,
      1,
    );
    return vacuum * Math.sqrt(densest);
  };
}

/** ca and cb of one edge, and 1 / (C (1 + g)) by which currents into it count, per F. */
interface EdgeNumbers {
  readonly ca: number;
  readonly cb: number;
}

/** Semi-implicit update of a lossy edge (Taflove, Computational Electrodynamics, section 3.6): g = G dt / 2C. */
function edgeNumbers(permittivity: number, perStep: number): EdgeNumbers {
  return { ca: (1 - perStep) / (1 + perStep), cb: 1 / (permittivity * (1 + perStep)) };
}

interface LoadedEdge extends EdgeNumbers {
  /** Edge capacitance with all that lies parallel, times (1 + g), F. */
  readonly capacitance: number;
}

function loadedEdge(model: Model, load: EdgeLoad, permittivity: number, conductivity: number): LoadedEdge {
  const vacuum = edgeCapacitance(model.grid, load.axis, load.node);
  const capacitance = vacuum * permittivity + load.capacitance;
  const conductance = (conductivity / ELECTRIC_CONSTANT) * vacuum + load.conductance;
  const perStep = (conductance * model.dt) / (2 * capacitance);
  return { ...edgeNumbers(capacitance / vacuum, perStep), capacitance: capacitance * (1 + perStep) };
}

/** Lays the model out in memory for a kernel. */
export function modelMemory(
  model: Model,
  options: { readonly probes: readonly Probe[]; readonly maxBatch: number; readonly allocate?: MemoryMaker },
): KernelInput {
  const { grid, dt } = model;
  const numbers = axisNumbers(grid, { dt, waveNumber: model.waveNumber });
  const means = { ex: edgeMean(grid, 'x'), ey: edgeMean(grid, 'y'), ez: edgeMean(grid, 'z') };
  return buildMemory({
    ...nodeCounts(grid),
    layers: grid.layers,
    electric: numbers.electric,
    magnetic: numbers.magnetic,
    operations: rowOperations(model, means),
    probes: options.probes,
    waveCount: Math.max(1, model.scene.ports.length),
    maxBatch: options.maxBatch,
    coefficients: {
      electric: electricRows(model, means),
      magnetic: magneticRows(model),
    },
    ...(options.allocate ? { allocate: options.allocate } : {}),
  });
}

type EdgeMeans = Readonly<Record<ElectricName, ReturnType<typeof edgeMean>>>;

const axisOf = (name: ElectricName | MagneticName) => name[1] as Axis;

function materialAt(model: Model, means: EdgeMeans, name: ElectricName, node: readonly [number, number, number]) {
  if (!model.material) return { permittivity: 1, conductivity: 0 };
  const mean = means[name];
  return {
    permittivity: mean(model.material.permittivity, ...node),
    conductivity: mean(model.material.conductivity, ...node),
  };
}

/** First and last position along an axis of the edges that live: not on a closed wall, not beyond the last node. */
function liveRange(grid: Grid, axis: Axis, along: Axis): readonly [number, number] {
  const last = grid.lines[axis].length - 1;
  if (axis === along) return [0, last - 1];
  return [grid.sides[axis].low === 'magnetic' ? 0 : 1, last - 1];
}

function electricRows(model: Model, means: EdgeMeans) {
  const { grid, metal, dt } = model;
  const { nx, ny } = nodeCounts(grid);
  const vacuumStep = dt / (2 * ELECTRIC_CONSTANT);
  return (name: ElectricName, { j, k }: RowPlace, { ca, cb }: ElectricRow): void => {
    const along = axisOf(name);
    const [[fromX, toX], [fromY, toY], [fromZ, toZ]] = AXES.map((axis) => liveRange(grid, axis, along)) as [
      readonly [number, number],
      readonly [number, number],
      readonly [number, number],
    ];
    if (j < fromY || j > toY || k < fromZ || k > toZ) return;
    const start = (k * ny + j) * nx;
    const factors = metal.edgeFactor[name];
    const loads = model.loads[along];
    for (let i = fromX; i <= toX; i++) {
      const element = start + i;
      if (metal.inMetal[name][element]) continue;
      const { permittivity, conductivity } = materialAt(model, means, name, [i, j, k]);
      const effective = permittivity * (factors.size > 0 ? (factors.get(element) ?? 1) : 1);
      const load = loads.size > 0 ? loads.get(element) : undefined;
      const numbers = load
        ? loadedEdge(model, load, effective, conductivity)
        : edgeNumbers(effective, (conductivity / effective) * vacuumStep);
      ca[i] = numbers.ca;
      cb[i] = numbers.cb;
    }
  };
}

function magneticRows(model: Model) {
  const { grid, metal } = model;
  const { nx, ny, nz } = nodeCounts(grid);
  const withFactors = Object.fromEntries(
    Object.entries(metal.faceFactor).map(([name, factors]) => {
      const rows = new Uint8Array(ny * nz);
      for (const element of factors.keys()) rows[Math.floor(element / nx)] = 1;
      return [name, rows];
    }),
  ) as Record<MagneticName, Uint8Array>;
  return (name: MagneticName, { j, k }: RowPlace, cm: Float32Array): boolean => {
    if (!withFactors[name][k * ny + j]) return false;
    for (let i = 0; i < nx; i++) cm[i] = metal.faceFactor[name].get((k * ny + j) * nx + i) ?? 1;
    return true;
  };
}

function rowOperations(model: Model, means: EdgeMeans): RowOperation[] {
  const all = AXES.flatMap((axis) => [...model.loads[axis].values()]);
  return all.flatMap((load): RowOperation[] => {
    const name: ElectricName = `e${load.axis}`;
    if (model.metal.inMetal[name][load.element]) return [];
    if (!load.drive && load.inverseInductance === 0) return [];
    const { permittivity, conductivity } = materialAt(model, means, name, load.node);
    const factor = model.metal.edgeFactor[name].get(load.element) ?? 1;
    const { capacitance } = loadedEdge(model, load, permittivity * factor, conductivity);
    const length = spacings(model.grid.lines[load.axis])[load.node[axisIndex(load.axis)]] as number;
    const [i, j, k] = load.node;
    const drive = load.drive ? (model.dt * load.conductance * load.drive.volts) / (capacitance * length) : 0;
    return [
      {
        component: name,
        i,
        j,
        k,
        wave: load.drive?.port ?? 0,
        drive,
        // The state is the current of the inductor, A: dI/dt = E length / L.
        back: load.inverseInductance === 0 ? 0 : model.dt / (capacitance * length),
        gain: load.inverseInductance * length * model.dt,
      },
    ];
  });
}
