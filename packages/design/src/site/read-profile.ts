import type { Finding } from '../finding.ts';
import type { ProfilePoint } from './site.ts';

/** A profile, or what is wrong with its file; findings carry the line of the CSV file. */
export interface ProfileReading {
  readonly points: readonly ProfilePoint[] | undefined;
  readonly findings: readonly Finding[];
}

const TO_METRES: ReadonlyMap<string, number> = new Map([
  ['m', 1],
  ['km', 1000],
  ['ft', 0.3048],
]);

const LEAST_POINTS = 2;
const MOST_POINTS = 20_000;
const MOST_DISTANCE_M = 200_000;
/** From below the Dead Sea to above the highest mountain, m. */
const HEIGHTS_M = { low: -500, high: 9000 } as const;
const MOST_OBSTACLE_M = 1000;
/** So many faults are told; a file of another kind would have one on every line. */
const MOST_FAULTS = 10;

const HEAD_HINT = 'begin with "distance m,height m", or with "distance m,height m,obstacle m"';

type Say = Pick<Finding, 'code' | 'value' | 'allowed' | 'remedy'>;

const fault = (line: number, path: string, said: Say): Finding => ({ severity: 'error', path, line, ...said });

interface Column {
  readonly name: 'distance' | 'height' | 'obstacle';
  readonly unit: string;
  readonly toMetres: number;
}

/**
 * Reads the ground along a path: a first line that names the columns with their units (m, km or ft), then one line a point with a distance
 * from the near end, the height of the ground and, if there is a third column, of what stands on it. Distances rise from 0. Separated by
 * commas, semicolons or tabs; empty lines and lines that begin with # are passed over. What is wrong comes back by line, at most ten.
 */
export function readProfile(text: string): ProfileReading {
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/);
  const rows = lines
    .map((line, index) => ({ line: index + 1, text: line.trim() }))
    .filter((row) => row.text !== '' && !row.text.startsWith('#'));
  const [head, ...rest] = rows;
  if (head === undefined)
    return refused([fault(1, '', { code: 'empty', value: '', allowed: 'a profile', remedy: HEAD_HINT })]);
  const columns = columnsOf(head);
  if ('fault' in columns) return refused([columns.fault]);
  if (rest.length > MOST_POINTS) {
    const said = {
      code: 'too-many',
      value: `${rest.length} points`,
      allowed: `more than ${MOST_POINTS}`,
      remedy: 'thin them out',
    };
    return refused([fault(head.line, '', said)]);
  }
  return pointsOf(rest, columns.columns, head.line);
}

interface Row {
  readonly line: number;
  readonly text: string;
}

const refused = (findings: readonly Finding[]): ProfileReading => ({
  points: undefined,
  findings: findings.slice(0, MOST_FAULTS),
});

const cellsOf = (text: string): string[] => text.split(/[,;\t]/).map((cell) => cell.trim());

function columnsOf(head: Row): { readonly columns: readonly Column[] } | { readonly fault: Finding } {
  const names = ['distance', 'height', 'obstacle'] as const;
  const cells = cellsOf(head.text);
  const bad = (value: string, allowed: string, code = 'no-head') => ({
    fault: fault(head.line, '', { code, value, allowed, remedy: HEAD_HINT }),
  });
  if (cells.length < 2 || cells.length > 3) return bad(shown(head.text), 'does not name two or three columns');
  const columns: Column[] = [];
  for (const [index, cell] of cells.entries()) {
    const name = names[index] ?? 'obstacle';
    const [, word = '', unit = ''] = /^"?([A-Za-z]+)\s*[([]?\s*([A-Za-z]*)\s*[)\]]?"?$/.exec(cell) ?? [];
    if (word.toLowerCase() !== name) return bad(shown(cell), `is not the column "${name}" with its unit`);
    const toMetres = TO_METRES.get(unit);
    if (toMetres === undefined)
      return bad(shown(cell), unit === '' ? 'needs its unit, m, km or ft' : 'is not in m, km or ft', 'wrong-unit');
    columns.push({ name, unit, toMetres });
  }
  return { columns };
}

const shown = (text: string): string => JSON.stringify(text.length > 40 ? `${text.slice(0, 40)}...` : text);

function pointsOf(rows: readonly Row[], columns: readonly Column[], headLine: number): ProfileReading {
  const findings: Finding[] = [];
  const points: ProfilePoint[] = [];
  for (const row of rows) {
    const point = pointOf(row, columns, points.at(-1));
    if ('fault' in point) findings.push(point.fault);
    else points.push(point);
    if (findings.length >= MOST_FAULTS) break;
  }
  const first = points[0];
  if (findings.length === 0 && points.length < LEAST_POINTS) {
    const said = {
      code: 'too-few',
      value: `${points.length} points`,
      allowed: 'at least 2 points',
      remedy: 'give the ground at both ends',
    };
    findings.push(fault(headLine, '', said));
  } else if (findings.length === 0 && first !== undefined && first.atM !== 0) {
    const said = {
      code: 'not-from-0',
      value: `${first.atM} m`,
      allowed: '0, the near end',
      remedy: 'begin the profile at distance 0',
    };
    findings.push(fault(rows[0]?.line ?? headLine, 'distance', said));
  }
  return findings.length > 0 ? refused(findings) : { points, findings: [] };
}

function pointOf(
  row: Row,
  columns: readonly Column[],
  before: ProfilePoint | undefined,
): ProfilePoint | { readonly fault: Finding } {
  const cells = cellsOf(row.text);
  if (cells.length !== columns.length) {
    const allowed = `has ${cells.length} values where the first line names ${columns.length}`;
    return {
      fault: fault(row.line, '', {
        code: 'wrong-count',
        value: shown(row.text),
        allowed,
        remedy: 'give one value for each column',
      }),
    };
  }
  const values: number[] = [];
  for (const [index, column] of columns.entries()) {
    const cell = cells[index] ?? '';
    if (!/^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/.test(cell))
      return { fault: notANumber(row.line, column, cell) };
    const value = Number(cell) * column.toMetres;
    const outside = outsideOf(column, value, before);
    if (outside !== undefined)
      return { fault: fault(row.line, column.name, { value: `${cell} ${column.unit}`, ...outside }) };
    values.push(value);
  }
  const [atM = 0, groundM = 0, obstacleM = 0] = values;
  return { atM, groundM, obstacleM };
}

function notANumber(line: number, { name, unit }: Column, cell: string): Finding {
  const withUnit = /^[+-]?[\d.]+\s*[A-Za-z]+$/.test(cell);
  const said = withUnit
    ? {
        code: 'wrong-unit',
        allowed: 'has a unit of its own',
        remedy: `give a plain number in ${unit}, or change the unit in the first line`,
      }
    : { code: 'not-a-number', allowed: 'a number', remedy: `give the ${name} in ${unit}, with a decimal point` };
  return fault(line, name, { value: cell === '' ? 'an empty value' : shown(cell), ...said });
}

function outsideOf({ name }: Column, value: number, before: ProfilePoint | undefined): Omit<Say, 'value'> | undefined {
  if (name === 'distance') {
    if (value < 0 || !(value <= MOST_DISTANCE_M))
      return { code: 'out-of-range', allowed: 'is outside 0 to 200 km', remedy: 'count from the near end, upwards' };
    if (before !== undefined && value <= before.atM)
      return {
        code: 'out-of-order',
        allowed: `is not beyond the point before it, ${before.atM} m`,
        remedy: 'sort the lines by distance, each once',
      };
    return undefined;
  }
  if (name === 'height') {
    if (value >= HEIGHTS_M.low && value <= HEIGHTS_M.high) return undefined;
    return {
      code: 'out-of-range',
      allowed: `is outside ${HEIGHTS_M.low} m to ${HEIGHTS_M.high} m`,
      remedy: 'check the unit in the first line',
    };
  }
  if (value >= 0 && value <= MOST_OBSTACLE_M) return undefined;
  return {
    code: 'out-of-range',
    allowed: `is outside 0 m to ${MOST_OBSTACLE_M} m`,
    remedy: 'give its height above the ground',
  };
}
