import type { Finding } from '@sheetwave/design';

/** One cut as the turntable gave it: degrees, -180 to below 180, rising, each once; levels in dB. */
export interface Turntable {
  readonly angleDeg: readonly number[];
  readonly levelDb: readonly number[];
}

export type TurntableReading =
  | { readonly ok: true; readonly turntable: Turntable }
  | { readonly ok: false; readonly findings: readonly Finding[] };

const LEAST_POINTS = 8;
const MOST_POINTS = 100_000;
const MOST_FAULTS = 10;
const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;
const HINT = 'write one line a reading: angle in degrees, level in dB';

/**
 * Reads angle and level, one line a reading, separated by commas, semicolons or tabs; a first line of words, empty lines and lines that begin
 * with # are passed over. Angles in any turn, -720 to 720 degrees; what falls on the same direction is averaged in dB. What is wrong comes
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
  const findings = data.slice(0, MOST_POINTS).flatMap(faultOf);
  const last = rows.at(-1)?.line ?? 1;
  if (findings.length === 0 && data.length < LEAST_POINTS)
    findings.push(fault(last, `${data.length} readings`, 'fewer than 8', 'turn in steps of 10 degrees or less'));
  if (data.length > MOST_POINTS)
    findings.push(fault(last, `${data.length} readings`, `more than ${MOST_POINTS}`, 'thin them out'));
  if (findings.length > 0) return { ok: false, findings: findings.slice(0, MOST_FAULTS) };
  return { ok: true, turntable: inOneTurn(data.map(({ cells }) => [Number(cells[0]), Number(cells[1])])) };
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

function faultOf({ line, cells }: { readonly line: number; readonly cells: readonly string[] }): readonly Finding[] {
  const shown = JSON.stringify(cells.join(',').slice(0, 40));
  if (cells.length !== 2)
    return [
      fault(
        line,
        shown,
        `has ${cells.length === 1 ? 'one value' : `${cells.length} values`} where two are wanted`,
        HINT,
      ),
    ];
  const wrong = cells.find((cell) => !NUMBER.test(cell));
  if (wrong !== undefined) return [fault(line, JSON.stringify(wrong.slice(0, 40)), 'is not a number', HINT)];
  if (Math.abs(Number(cells[0])) > 720)
    return [fault(line, `${cells[0]} degrees`, 'is outside -720 to 720 degrees', 'give the angle of the turntable')];
  if (Math.abs(Number(cells[1])) > 300)
    return [fault(line, `${cells[1]} dB`, 'is outside -300 to 300 dB', 'give the level in dB or dBm')];
  return [];
}

function inOneTurn(readings: readonly (readonly [number, number])[]): Turntable {
  const at = new Map<number, number[]>();
  for (const [angle, level] of readings) {
    const turned = Number((((((angle + 180) % 360) + 360) % 360) - 180).toFixed(6));
    at.set(turned, [...(at.get(turned) ?? []), level]);
  }
  const sorted = [...at].sort(([a], [b]) => a - b);
  return {
    angleDeg: sorted.map(([angle]) => angle),
    levelDb: sorted.map(([, levels]) => levels.reduce((a, b) => a + b, 0) / levels.length),
  };
}
