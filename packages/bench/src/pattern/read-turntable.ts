import type { Finding } from '@sheetwave/design';

/** One cut: degrees, -180 to below 180, rising, each once; levels in dB. */
export interface Cut {
  readonly angleDeg: readonly number[];
  readonly levelDb: readonly number[];
}

/** One cut as the turntable gave it. */
export interface Turntable extends Cut {
  /** Level in the polarisation across the wanted one, dB, one for each angle; undefined where it was not read. */
  readonly crossDb: readonly number[] | undefined;
}

export type TurntableReading =
  | { readonly ok: true; readonly turntable: Turntable }
  | { readonly ok: false; readonly findings: readonly Finding[] };

const LEAST_POINTS = 8;
const MOST_POINTS = 100_000;
const MOST_FAULTS = 10;
const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;
const HINT =
  'write one line a reading: angle in degrees, level in dB, and if you read it the level of the crossed polarisation';

/**
 * Reads angle, level and perhaps the level of the crossed polarisation, one line a reading, separated by commas, semicolons or tabs; a first
 * line of words, empty lines and lines that begin with # are passed over. Angles in any turn, -720 to 720 degrees; what falls on the same direction is averaged in dB. What is wrong comes
 * back by line, at most ten.
 */
export function readTurntable(text: string): TurntableReading {
  const rows = text
    .replace(/^\ufeff/, '')
    .split(/\r\n|\r|\n/)
    .map((line, index) => ({ line: index + 1, cells: line.split(/[,;\t]/).map((cell) => cell.trim()) }))
    .filter(({ cells }) => cells.join('') !== '' && !cells[0]?.startsWith('#'));
  const isHead = rows[0]?.cells.every((cell) => /^"?[A-Za-z]/.test(cell) && !/^nan$|^inf/i.test(cell)) === true;
  const data = isHead ? rows.slice(1) : rows;
  const wanted = data[0]?.cells.length === 3 ? 3 : 2;
  const findings = data.slice(0, MOST_POINTS).flatMap((row) => faultOf(row, wanted));
  const last = rows.at(-1)?.line ?? 1;
  if (findings.length === 0 && data.length < LEAST_POINTS)
    findings.push(fault(last, `${data.length} readings`, 'fewer than 8', 'turn in steps of 10 degrees or less'));
  if (data.length > MOST_POINTS)
    findings.push(fault(last, `${data.length} readings`, `more than ${MOST_POINTS}`, 'thin them out'));
  if (findings.length > 0) return { ok: false, findings: findings.slice(0, MOST_FAULTS) };
  return { ok: true, turntable: inOneTurn(data.map(({ cells }) => cells.map(Number))) };
}

const fault = (line: number, value: string, allowed: string, remedy: string): Finding => ({
  code: 'bad-reading',
  severity: 'error',
  path: '',
  value,
  allowed,
  remedy,
  line,
});

type Row = { readonly line: number; readonly cells: readonly string[] };

/** `wanted`: how many values the first reading has. */
function faultOf({ line, cells }: Row, wanted: 2 | 3): readonly Finding[] {
  if (cells.length !== wanted) {
    const shown = JSON.stringify(cells.join(',').slice(0, 40));
    const found = cells.length === 1 ? 'one value' : `${cells.length} values`;
    const allowed =
      cells.length === 2 || cells.length === 3
        ? `has ${found} where the first reading has ${wanted}`
        : `has ${found} where two or three are wanted`;
    return [fault(line, shown, allowed, HINT)];
  }
  const wrong = cells.find((cell) => !NUMBER.test(cell));
  if (wrong !== undefined) return [fault(line, JSON.stringify(wrong.slice(0, 40)), 'is not a number', HINT)];
  if (Math.abs(Number(cells[0])) > 720)
    return [fault(line, `${cells[0]} degrees`, 'is outside -720 to 720 degrees', 'give the angle of the turntable')];
  const far = cells.slice(1).find((cell) => Math.abs(Number(cell)) > 300);
  return far === undefined
    ? []
    : [fault(line, `${far} dB`, 'is outside -300 to 300 dB', 'give the level in dB or dBm')];
}

function inOneTurn(readings: readonly (readonly number[])[]): Turntable {
  const at = new Map<number, (readonly number[])[]>();
  for (const reading of readings) {
    const turned = Number(((((((reading[0] ?? 0) + 180) % 360) + 360) % 360) - 180).toFixed(6));
    at.set(turned, [...(at.get(turned) ?? []), reading]);
  }
  const sorted = [...at].sort(([a], [b]) => a - b);
  const mean = (column: number) =>
    sorted.map(([, rows]) => rows.reduce((sum, row) => sum + (row[column] ?? 0), 0) / rows.length);
  return {
    angleDeg: sorted.map(([angle]) => angle),
    levelDb: mean(1),
    crossDb: readings[0]?.length === 3 ? mean(2) : undefined,
  };
}
