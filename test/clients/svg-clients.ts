import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runClient } from './client.ts';
import { withFile } from './dxf-clients.ts';

const MEASURE = fileURLToPath(new URL('measure-svg.py', import.meta.url));
/** CSS Values and Units Level 3, section 5.2: 96 px to the inch of 25.4 mm. */
const PX_MM = 25.4 / 96;

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** What xmllint has to say; empty for a well-formed file. */
export function xmlComplaints(bytes: Uint8Array): string {
  return withFile('drawing.svg', bytes, (file) => {
    const ended = runClient('xmllint', ['--noout', '--nonet', file]);
    return ended.status === 0 ? '' : ended.stderr || `status ${ended.status}`;
  });
}

/** Bounds in mm that Inkscape finds for everything with an id, lines with half their width on each side. */
export function boundsInInkscape(bytes: Uint8Array): ReadonlyMap<string, Box> {
  return withFile('drawing.svg', bytes, (file) => {
    const ended = runClient('inkscape', ['--query-all', file], { timeoutMs: 100_000 });
    if (ended.status !== 0) throw new Error(`inkscape: ${ended.stderr}`);
    const rows = ended.stdout.split('\n').map((line) => line.split(','));
    const boxes = rows
      .filter((row) => row.length === 5)
      .map(([id = '', ...numbers]) => {
        const [x = Number.NaN, y = Number.NaN, width = Number.NaN, height = Number.NaN] = numbers.map(
          (n) => Number(n) * PX_MM,
        );
        return [id, { x, y, width, height }] as const;
      });
    if (boxes.length === 0) throw new Error(`inkscape found nothing: ${ended.stderr}`);
    return new Map(boxes);
  });
}

export interface Ink {
  /** Length of the ink in each box, mm. */
  readonly bars: readonly number[];
  /** Centre (mm from the left and the top of the page) and diameter of each circle. */
  readonly holes: readonly (readonly [x: number, y: number, diameter: number])[];
}

/** Counts ink in what rsvg-convert draws at 254 dpi, 10 pixels a millimetre. */
export function inkInRsvg(
  bytes: Uint8Array,
  ask: {
    readonly bars: readonly (readonly [number, number, number, number])[];
    readonly holes: readonly (readonly [x: number, y: number, diameter: number])[];
  },
): Ink {
  return withFile('drawing.svg', bytes, (file, folder) => {
    const png = join(folder, 'drawing.png');
    const drawn = runClient('rsvg-convert', ['-d', '254', '-p', '254', '-b', 'white', '-o', png, file]);
    if (drawn.status !== 0) throw new Error(`rsvg-convert: ${drawn.stderr}`);
    const measured = runClient('/usr/bin/python3', [MEASURE, png], { input: JSON.stringify(ask) });
    if (measured.status !== 0) throw new Error(measured.stderr);
    return JSON.parse(measured.stdout);
  });
}
