import type { FieldProblem } from './field-error.ts';
import { edgesOf, outlineArea } from './outline.ts';
import { partBoxes, wallName } from './planes.ts';
import {
  axisIndex,
  axisOfSpan,
  type Band,
  type Outline,
  type Position,
  type Scene,
  type Sheet,
  type Solid,
  type Wire,
} from './scene.ts';
import { AXES } from './update.ts';

/** All that is wrong with a scene, as far as it can be told without a grid. */
export function checkScene(scene: Scene, band: Band): FieldProblem[] {
  return [
    ...checkBand(band),
    ...scene.sheets.flatMap((sheet, n) => checkSheet(sheet, `sheets[${n}]`)),
    ...scene.solids.flatMap((solid, n) => checkSolid(solid, `solids[${n}]`)),
    ...scene.wires.flatMap((wire, n) => checkWire(wire, `wires[${n}]`)),
    ...checkPorts(scene),
    ...checkElements(scene),
    ...checkEnds(scene),
    ...checkInside(scene),
  ];
}

const problem = (code: string, path: string, value: unknown, allowed: string, remedy: string): FieldProblem => ({
  code,
  path,
  value: String(value),
  allowed,
  remedy,
});

function positive(value: number, path: string, unit: string): FieldProblem[] {
  if (Number.isFinite(value) && value > 0) return [];
  return [problem('not-positive', path, value, `is not a number above 0 ${unit}`, 'give a finite number above 0')];
}

const finite = (values: readonly number[], path: string): FieldProblem[] =>
  values.every(Number.isFinite)
    ? []
    : [problem('not-finite', path, values.join(', '), 'is not finite', 'give numbers in m')];

function checkBand({ low, high }: Band): FieldProblem[] {
  if (Number.isFinite(low) && Number.isFinite(high) && low > 0 && high > low) return [];
  return [problem('band', 'band', `${low} to ${high}`, 'is not a band', 'give low and high in Hz, 0 < low < high')];
}

function checkOutline(outline: Outline, path: string): FieldProblem[] {
  const numbers = outline.kind === 'disc' ? [...outline.centre, outline.radius] : outline.points.flat();
  const bad = finite(numbers, path);
  if (bad.length > 0) return bad;
  const tooFew = outline.kind === 'polygon' && outline.points.length < 3;
  const empty = outline.kind === 'disc' ? !(outline.radius > 0) : tooFew || outlineArea(outline) < 1e-12;
  if (empty) return [problem('no-area', path, '', 'the outline has no area', 'give a sheet with a size')];
  const point =
    outline.kind === 'polygon' && edgesOf(outline.points).some(([a, b]) => Math.hypot(a[0] - b[0], a[1] - b[1]) < 1e-9);
  return point ? [problem('double-point', path, '', 'two corners lie in one place', 'leave one of them out')] : [];
}

function checkSheet(sheet: Sheet, path: string): FieldProblem[] {
  const thickness = sheet.thickness >= 0 && Number.isFinite(sheet.thickness);
  return [
    ...finite([sheet.at], `${path}.at`),
    ...(thickness
      ? []
      : [problem('thickness', `${path}.thickness`, sheet.thickness, 'is below 0', 'give 0 or more, in m')]),
    ...checkOutline(sheet.outline, `${path}.outline`),
    ...(sheet.holes ?? []).flatMap((hole, n) => checkOutline(hole, `${path}.holes[${n}]`)),
    ...(sheet.conductivity === undefined ? [] : positive(sheet.conductivity, `${path}.conductivity`, 'S/m')),
    ...(sheet.resolution === undefined ? [] : positive(sheet.resolution, `${path}.resolution`, '')),
  ];
}

const checkWire = (wire: Wire, path: string): FieldProblem[] => [
  ...checkSpan(wire, path),
  ...positive(wire.radius, `${path}.radius`, 'm'),
  ...(wire.conductivity === undefined ? [] : positive(wire.conductivity, `${path}.conductivity`, 'S/m')),
];

function checkSolid({ shape, permittivity, lossTangent = 0, resolution = 1 }: Solid, path: string): FieldProblem[] {
  const problems = positive(resolution, `${path}.resolution`, '');
  if (!(Number.isFinite(permittivity) && permittivity >= 1)) {
    problems.push(
      problem(
        'permittivity',
        `${path}.permittivity`,
        permittivity,
        'is not 1 or above',
        'give the relative permittivity',
      ),
    );
  }
  if (!(Number.isFinite(lossTangent) && lossTangent >= 0)) {
    problems.push(problem('loss-tangent', `${path}.lossTangent`, lossTangent, 'is not 0 or above', 'give 0 for none'));
  }
  const solid =
    shape.kind === 'box'
      ? AXES.every((_, n) => (shape.high[n] as number) > (shape.low[n] as number))
      : shape.to > shape.from && shape.radius > 0 && shape.centre.every(Number.isFinite);
  if (!solid)
    problems.push(
      problem(
        'no-volume',
        path,
        '',
        'the solid has no volume',
        'give numbers, with every high side above its low side',
      ),
    );
  return problems;
}

function checkSpan({ from, to }: { readonly from: Position; readonly to: Position }, path: string): FieldProblem[] {
  const bad = finite([...from, ...to], path);
  if (bad.length > 0) return bad;
  if (axisOfSpan(from, to) !== undefined) return [];
  return [
    problem(
      'not-along-axis',
      path,
      '',
      'does not run along one of the axes',
      'let its ends differ in one coordinate only',
    ),
  ];
}

function checkPorts({ ports }: Scene): FieldProblem[] {
  const problems = ports.flatMap((port, n) => [
    ...checkSpan(port, `ports[${n}]`),
    ...positive(port.resistance, `ports[${n}].resistance`, 'ohm'),
    ...(port.radius === undefined ? [] : positive(port.radius, `ports[${n}].radius`, 'm')),
  ]);
  if (ports.length === 0)
    problems.push(problem('no-port', 'ports', '', 'there is no port', 'give one to drive the structure'));
  ports.forEach((port, n) => {
    const same = ports.slice(0, n).findIndex((other) => spansMeet(port, other));
    if (same >= 0)
      problems.push(problem('ports-overlap', `ports[${n}]`, port.name, `lies on ports[${same}]`, 'move one of them'));
  });
  return problems;
}

function checkElements({ elements = [], ports }: Scene): FieldProblem[] {
  return elements.flatMap((element, n) => {
    const path = `elements[${n}]`;
    const values = [element.resistance, element.inductance, element.capacitance].filter((value) => value !== undefined);
    const bad = values.flatMap((value) => positive(value, path, 'ohm, H or F'));
    if (values.length === 0)
      bad.push(
        problem('no-value', path, element.name, 'has no value', 'give it a resistance, inductance or capacitance'),
      );
    const taken = [...ports, ...elements.slice(0, n)].some((other) => spansMeet(element, other));
    if (taken)
      bad.push(problem('ports-overlap', path, element.name, 'lies on a port or another element', 'move one of them'));
    return [...checkSpan(element, path), ...bad];
  });
}

type Ends = { readonly from: Position; readonly to: Position };

/** Whether two spans along one line share more than an end. */
function spansMeet(a: Ends, b: Ends): boolean {
  const axis = axisOfSpan(a.from, a.to);
  if (!axis || axis !== axisOfSpan(b.from, b.to)) return false;
  const along = axisIndex(axis);
  const sameLine = AXES.every((_, n) => n === along || Math.abs((a.from[n] as number) - (b.from[n] as number)) < 1e-9);
  const range = ({ from, to }: Ends) => [Math.min(from[along], to[along]), Math.max(from[along], to[along])] as const;
  const [[lowA, highA], [lowB, highB]] = [range(a), range(b)];
  return sameLine && Math.min(highA, highB) - Math.max(lowA, lowB) > 1e-9;
}

/** Where the space ends must be a place. */
const checkEnds = ({ walls = {}, openAt = {} }: Scene): FieldProblem[] => [
  ...Object.entries(walls).flatMap(([name, wall]) => finite([wall.at], `walls.${name}.at`)),
  ...Object.entries(openAt).flatMap(([name, at]) => finite([at], `openAt.${name}`)),
];

/** Nothing may reach through a wall. */
function checkInside(scene: Scene): FieldProblem[] {
  return AXES.flatMap((axis) =>
    (['Low', 'High'] as const).flatMap((side) => {
      const wall = scene.walls?.[wallName(axis, side)];
      if (!wall) return [];
      const path = `walls.${wallName(axis, side)}`;
      if (side === 'High' && wall.kind === 'magnetic') {
        return [
          problem('high-magnetic', path, '', 'a magnetic wall is possible on low sides only', 'mirror the scene'),
        ];
      }
      const n = axisIndex(axis);
      const isBehind = (end: number) =>
        Number.isFinite(end) && (side === 'Low' ? end < wall.at - 1e-9 : end > wall.at + 1e-9);
      return partBoxes(scene)
        .filter(({ box: [low, high] }) => isBehind(low[n]) || isBehind(high[n]))
        .map((part) =>
          problem(
            'outside',
            part.path,
            part.name,
            `reaches behind ${path} at ${wall.at} m`,
            'move the wall or the part',
          ),
        );
    }),
  );
}
