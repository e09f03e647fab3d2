import type { FieldProblem } from './field-error.ts';
import { type Grid, spacings } from './grid.ts';
import type { Model } from './model.ts';
import { sheetBox } from './planes.ts';
import { axisIndex, type Port, type Position, planeAxes } from './scene.ts';
import type { Axis, ElectricName } from './update.ts';
import { isInGrid, type Span, spanElements, spanOnGrid } from './wires.ts';

/** What can only be told on the grid: ports in metal, and parts that fall between the lines. */
export function checkModel(model: Model): FieldProblem[] {
  return [
    ...model.sheetsMet.flatMap((met, n) =>
      met || isCutAway(model, n)
        ? []
        : [finding('too-small', `sheets[${n}]`, model.scene.sheets[n]?.name, 'lies between the lines of the grid')],
    ),
    ...model.scene.ports.flatMap((port, n) => checkGap(model, port, `ports[${n}]`)),
    ...(model.scene.elements ?? []).flatMap((element, n) => checkGap(model, element, `elements[${n}]`)),
    ...model.scene.wires.flatMap((wire, n) => checkWire(model, wire, `wires[${n}]`)),
    ...model.scene.ports.flatMap((port, n) => checkPortRadius(model, port, `ports[${n}]`)),
  ];
}

const REFINE = 'use a finer quality';

const finding = (code: string, path: string, value: unknown, allowed: string, remedy = REFINE): FieldProblem => ({
  code,
  path,
  value: String(value ?? ''),
  allowed,
  remedy,
});

interface Ends {
  readonly name: string;
  readonly from: Position;
  readonly to: Position;
}

function isCutAway(model: Model, n: number): boolean {
  const sheet = model.scene.sheets[n];
  if (!sheet) return true;
  const [from, to] = sheetBox(sheet);
  return !isInGrid(model.grid, { from, to });
}

function checkGap(model: Model, { name, from, to }: Ends, path: string): FieldProblem[] {
  if (!isInGrid(model.grid, { from, to })) return [];
  const span = spanOnGrid(model.grid, from, to);
  if (span.count === 0) return [finding('too-small', path, name, 'is shorter than the cell there')];
  const component: ElectricName = `e${span.axis}`;
  const shorted = spanElements(model.grid, span).some((element) => model.metal.inMetal[component][element]);
  return shorted ? [finding('shorted', path, name, 'is shorted by metal', 'leave a gap in the metal')] : [];
}

/** Of the cell beside it: beyond this the field in the cell is no longer that of a thin wire. */
const THICKEST = 0.6;

function checkWire({ grid }: Model, wire: Ends & { readonly radius: number }, path: string): FieldProblem[] {
  if (!isInGrid(grid, wire)) return [];
  const span = spanOnGrid(grid, wire.from, wire.to);
  if (span.count === 0) return [finding('too-small', path, wire.name, 'is shorter than the cell there')];
  return checkRadius(grid, { span, radius: wire.radius }, path);
}

const checkPortRadius = ({ grid }: Model, { radius, from, to }: Port, path: string): FieldProblem[] =>
  radius === undefined || !isInGrid(grid, { from, to })
    ? []
    : checkRadius(grid, { span: spanOnGrid(grid, from, to), radius }, path);

function checkRadius(
  grid: Grid,
  { span, radius }: { readonly span: Span; readonly radius: number },
  path: string,
): FieldProblem[] {
  const cell = Math.min(...planeAxes(span.axis).flatMap((axis) => cellsBeside(grid.lines[axis], span, axis)));
  if (radius < THICKEST * cell) return [];
  const remedy = `model it as a sheet with a thickness, or use a coarser quality`;
  return [finding('too-thick', `${path}.radius`, radius, `is not below 0.6 of the cell beside it (${cell} m)`, remedy)];
}

function cellsBeside(lines: Float64Array, span: Span, axis: Axis): number[] {
  const cells = spacings(lines);
  const n = span.node[axisIndex(axis)];
  return [cells[n - 1], cells[n]].filter((cell) => cell !== undefined);
}
