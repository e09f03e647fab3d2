import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runClient } from './client.ts';

export interface DxfEntityMeasure {
  readonly type: string;
  readonly layer: string;
  readonly closed: boolean;
  readonly length: number;
  readonly area?: number;
  readonly x?: number;
  readonly y?: number;
  readonly diameter?: number;
  /** Lower left and upper right corner of a closed curve or polyline: minX, minY, maxX, maxY. */
  readonly box?: readonly [number, number, number, number];
  readonly text?: string;
}

export interface DxfMeasure {
  readonly insunits: number;
  readonly measurement: number;
  /** What the audit had to say, repairs included. */
  readonly complaints: readonly string[];
  readonly entities: readonly DxfEntityMeasure[];
}

/** What ezdxf reads in a DXF file. Throws when its strict reader refuses the file. */
export function measureDxf(bytes: Uint8Array): DxfMeasure {
  const script = fileURLToPath(new URL('measure-dxf.py', import.meta.url));
  return withFile('part.dxf', bytes, (file) => {
    const ended = runClient('/usr/bin/python3', [script, file]);
    if (ended.status !== 0) throw new Error(`ezdxf: ${ended.stderr}`);
    return JSON.parse(ended.stdout) as DxfMeasure;
  });
}

/** How many strokes LibreCAD prints of a DXF file. It shows a dialog when it cannot read one, hence the time limit. */
export function librecadStrokes(bytes: Uint8Array): number {
  return withFile('part.dxf', bytes, (file, folder) => {
    const ended = runClient('librecad', ['dxf2pdf', '-a', '-m', '-t', folder, file], { timeoutMs: 40_000 });
    const pdf = join(folder, 'part.pdf');
    if (ended.status !== 0 || !existsSync(pdf)) throw new Error(`librecad: ${ended.status} ${ended.stderr}`);
    const trace = runClient('mutool', ['trace', pdf]);
    return trace.stdout.match(/<(stroke|fill)_path/g)?.length ?? 0;
  });
}

/** Millimetres that Inkscape's importer takes one unit of the file for, and how many paths it makes of it. */
export function inkscapeImport(bytes: Uint8Array): { readonly scale: number; readonly paths: number } {
  return withFile('part.dxf', bytes, (file) => {
    const script = '/usr/share/inkscape/extensions/dxf_input.py';
    const ended = runClient('/usr/bin/python3', [script, '--scalemethod=file', file]);
    const scale = /scale = ([0-9.]+)/.exec(ended.stdout)?.[1];
    if (ended.status !== 0 || scale === undefined) throw new Error(`inkscape importer: ${ended.stderr}`);
    return { scale: Number(scale), paths: ended.stdout.match(/<path /g)?.length ?? 0 };
  });
}

/** Runs `act` on a file of its own in an empty folder that is gone afterwards. */
export function withFile<T>(name: string, bytes: Uint8Array, act: (file: string, folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'client-file-'));
  try {
    const file = join(folder, name);
    writeFileSync(file, bytes);
    return act(file, folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
