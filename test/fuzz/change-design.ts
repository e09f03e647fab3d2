import type { Random } from './random.ts';
import { isTable, type Table, type Value } from './toml.ts';

type Path = readonly (string | number)[];

/** Every place in a design: its tables, lists and values. */
function pathsOf(value: Value, path: Path = []): readonly Path[] {
  const children = Array.isArray(value) ? [...value.entries()] : isTable(value) ? Object.entries(value) : [];
  return [...(path.length > 0 ? [path] : []), ...children.flatMap(([key, child]) => pathsOf(child, [...path, key]))];
}

const at = (value: Value, path: Path): Value =>
  path.reduce((inner, key) => (inner as Record<string | number, Value>)[key] as Value, value);

/** A copy with one place changed; undefined takes it out. */
function replaced(value: Value, [key, ...rest]: Path, change: (old: Value) => Value | undefined): Value {
  if (key === undefined) return change(value) ?? value;
  const inner = rest.length === 0 ? change(at(value, [key])) : replaced(at(value, [key]), rest, change);
  if (Array.isArray(value))
    return value.flatMap((one, index) => (index === key ? (inner === undefined ? [] : [inner]) : [one]));
  const entries = Object.entries(value as Table);
  return Object.fromEntries(
    entries.flatMap(([name, one]) => (name === key ? (inner === undefined ? [] : [[name, inner]]) : [[name, one]])),
  );
}

const LENGTH = /^(-?[\d.]+) mm$/;

/** A design with some of its lengths shrunk or stretched: still well formed, seldom sensible. */
export function shakenDesign(random: Random, design: Table): Table {
  const lengths = pathsOf(design).filter((path) => LENGTH.test(String(at(design, path))));
  let shaken: Value = design;
  for (let left = random.pick([0, 0, 0, 1, 1, 2, 5]); left > 0 && lengths.length > 0; left -= 1) {
    const factor = random.pick([
      random.between(0.8, 1.25),
      random.between(0.1, 3),
      random.pick([0.01, 0.5, 2, 10, 100]),
    ]);
    shaken = replaced(shaken, random.pick(lengths), (old) => {
      const value = Number(LENGTH.exec(String(old))?.[1]) * factor;
      return `${Number(value.toPrecision(random.pick([2, 4, 12])))} mm`;
    });
  }
  return shaken as Table;
}

const DEEP = 40;
const nested = (depth: number): Value => (depth === 0 ? 1 : [nested(depth - 1)]);

/** Values that no field expects, or that lie at the end of what numbers and text can be. */
const HOSTILE: readonly Value[] = [
  ...[0, -1, 1e-9, 0.5, 3, 1e9, 1e300, -1e300, 5e-324, Number.NaN, Number.POSITIVE_INFINITY, 9007199254740992, -0],
  ...[
    '',
    ' ',
    '0 mm',
    '-3 mm',
    '1e9 mm',
    '1e-9 mm',
    '1e999 mm',
    'nan mm',
    'inf mm',
    '6mm',
    '6  mm',
    '6 in',
    '1/4 in',
    '６ mm',
    '6,5 mm',
    '6 Mm',
    '6 µm',
  ],
  ...[
    '5.8 GHz',
    '12 dBi',
    '90 deg',
    'none',
    'all',
    'minimum',
    'rod',
    'circle',
    'brass-0.5',
    'm3-mf-6-brass',
    '__proto__',
    'constructor',
    'toString',
  ],
  ...[
    '../../x',
    '/x',
    'con',
    'a\u0000b',
    'a\u001b[31mb',
    '\u202edesrever',
    '\u{1f4e1}',
    'é\u0301',
    'x'.repeat(300),
    'ǆ'.repeat(41),
  ],
  ...[true, false, [], {}, [1, 2], ['6 mm', '6 mm'], { width: '6 mm', height: '6 mm' }, [{}], nested(DEEP)],
];

/** A design with one to three places replaced, left out, doubled, renamed, moved or added. */
export function brokenDesign(random: Random, design: Table): Table {
  let broken: Value = design;
  for (let left = random.whole(1, 3); left > 0; left -= 1) broken = brokenOnce(random, broken as Table);
  return broken as Table;
}

function brokenOnce(random: Random, design: Table): Value {
  const paths = pathsOf(design);
  if (paths.length === 0) return { format: 1 };
  const path = random.pick(paths);
  const other = at(design, random.pick(paths));
  const change = random.pick<(old: Value) => Value | undefined>([
    () => random.pick(HOSTILE),
    () => random.pick(HOSTILE),
    () => undefined,
    () => other,
    (old) => [old, old],
    (old) => (Array.isArray(old) ? [...old, ...old] : { value: old }),
    (old) =>
      isTable(old) ? { ...old, [random.pick(['hieght', '__proto__', '', 'über', 'x'.repeat(200)])]: other } : old,
    (old) =>
      isTable(old)
        ? Object.fromEntries(Object.entries(old).map(([key, value]) => [random.chance(0.2) ? `${key}s` : key, value]))
        : other,
  ]);
  return replaced(design, path, change);
}
