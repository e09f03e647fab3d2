import { drillAdvice, type FlatPart, groupHoles, type HoleGroup, plain, thicknessOf } from '@sheetwave/drawings';
import type { Point } from '@sheetwave/geometry';
import { type PlanTable, table } from '../document.ts';

/** From here on holes that stand in rows and columns are given as those, not one by one. */
const ONE_BY_ONE = 12;
/** Holes that stand anyhow: beyond this many the drill map alone has them. */
const MOST_HOLES = 120;

const HEAD = ['hole', 'count', 'diameter', 'for', 'from left', 'from below', 'drill'];

/** Every hole by the letter of its drill map. Undefined for a part without holes. */
export function holeTable(part: FlatPart, datum: Point): PlanTable | undefined {
  const { holes } = part.outline;
  if (holes.length === 0) return undefined;
  const rows = groupHoles(holes).flatMap((group) => groupRows(group, part, datum));
  return table('Holes', HEAD, rows);
}

function groupRows(group: HoleGroup, part: FlatPart, datum: Point): readonly (readonly string[])[] {
  const { letter, diameterMm, plated, purpose } = group;
  const drill = drillAdvice({ diameterMm, plated, sheetMm: thicknessOf(part) });
  const what = [plain(diameterMm), purpose + (plated ? ', metal-lined' : '')];
  const places = group.holes.map(({ hole }) => ({ x: hole.centre.x - datum.x, y: hole.centre.y - datum.y }));
  const grid = places.length > ONE_BY_ONE ? gridOf(places) : undefined;
  if (grid !== undefined)
    return [
      [letter, String(places.length), ...what, `each of ${grid.xs.join('; ')}`, `each of ${grid.ys.join('; ')}`, drill],
    ];
  if (places.length > MOST_HOLES)
    return [[letter, String(places.length), ...what, 'see the drill map', 'see the drill map', drill]];
  return group.holes.map(({ label }, index) => {
    const at = places[index] ?? { x: 0, y: 0 };
    return [label, '1', ...what, plain(at.x), plain(at.y), drill];
  });
}

/** Rows and columns with a hole at every crossing, as they are printed; undefined when some crossing has none. */
function gridOf(
  places: readonly Point[],
): { readonly xs: readonly string[]; readonly ys: readonly string[] } | undefined {
  const xs = distinct(places.map(({ x }) => x));
  const ys = distinct(places.map(({ y }) => y));
  const crossings = new Set(places.map(({ x, y }) => `${plain(x)} ${plain(y)}`));
  return xs.length * ys.length === places.length && crossings.size === places.length ? { xs, ys } : undefined;
}

const distinct = (values: readonly number[]): readonly string[] => [
  ...new Set([...values].sort((a, b) => a - b).map((value) => plain(value))),
];
