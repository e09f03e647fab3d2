import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { runClient } from './client.ts';
import type { DrillHit } from './drill-reader.ts';
import { withFile } from './dxf-clients.ts';

const INCH_MM = 25.4;
/** White paper around the image. */
const MARGIN_MM = 1;

/** Counts dark pixels; partly covered ones count by their darkness. */
const COUNT_INK = `
import sys, numpy
from PIL import Image
Image.MAX_IMAGE_PIXELS = None
print(float((255 - numpy.asarray(Image.open(sys.argv[1]).convert("L"), dtype=numpy.float64)).sum()) / 255)
`;

/** Complaints in gerbv's log: its exit status is 0 even for junk. It does not know attributes and says so; that is left out. */
function complaints(log: string): readonly string[] {
  return log
    .split('\n')
    .filter((line) => /CRITICAL|WARNING|ERROR/.test(line))
    .filter(
      (line) => !/extension found %T[FAD]%|Most likely found a RS-274D|Missing apertures\/drill sizes/.test(line),
    );
}

/** What gerbv says about a Gerber file and the area that it draws, counted in pixels. `bounds` as left, low, right, high in mm. */
export function drawWithGerbv(
  bytes: Uint8Array,
  bounds: readonly [number, number, number, number],
): { readonly complaints: readonly string[]; readonly areaMm2: number; readonly pixelMm: number } {
  const [left, low, right, high] = bounds;
  const [width, height] = [right - left + 2 * MARGIN_MM, high - low + 2 * MARGIN_MM];
  const dpi = Math.max(100, Math.min(2400, Math.floor(Math.sqrt((1.6e7 * INCH_MM ** 2) / (width * height)))));
  const inches = (mm: number) => (mm / INCH_MM).toFixed(5);
  return withFile('layer.gbr', bytes, (file, folder) => {
    const png = join(folder, 'layer.png');
    const window = [
      '-O',
      `${inches(left - MARGIN_MM)};${inches(low - MARGIN_MM)}`,
      '-W',
      `${inches(width)}x${inches(height)}`,
    ];
    const colours = ['-b', '#ffffff', '-f', '#000000FF'];
    const ended = runClient('gerbv', ['-x', 'png', '-B', '0', '-D', `${dpi}`, ...colours, ...window, '-o', png, file]);
    if (!existsSync(png)) throw new Error(`gerbv drew nothing: ${ended.stderr}`);
    const ink = runClient('/usr/bin/python3', ['-c', COUNT_INK, png]);
    if (ink.status !== 0) throw new Error(ink.stderr);
    const pixelMm = INCH_MM / dpi;
    return { complaints: complaints(ended.stderr), areaMm2: Number(ink.stdout) * pixelMm ** 2, pixelMm };
  });
}

/** The holes that gerbv reads in a drill file, from the file it writes again (inches, four decimals; so ± 2.5 µm and ± 25 µm in diameter). */
export function drillWithGerbv(bytes: Uint8Array): {
  readonly complaints: readonly string[];
  readonly hits: readonly DrillHit[];
} {
  return withFile('holes.drl', bytes, (file, folder) => {
    const rewritten = join(folder, 'rewritten.drl');
    const ended = runClient('gerbv', ['-x', 'drill', '-o', rewritten, file]);
    if (!existsSync(rewritten)) throw new Error(`gerbv read no holes: ${ended.stderr}`);
    return { complaints: complaints(ended.stderr), hits: rewrittenHits(readFileSync(rewritten, 'utf8')) };
  });
}

function rewrittenHits(text: string): readonly DrillHit[] {
  const diameters = new Map<string, number>();
  const hits: DrillHit[] = [];
  let tool = '';
  for (const line of text.split('\n')) {
    const [, defined, inches] = /^T(\d+)C([0-9.]+)/.exec(line) ?? [];
    const [, selected] = /^T(\d+)$/.exec(line.trim()) ?? [];
    const [, x, y] = /^X(-?\d+)Y(-?\d+)/.exec(line) ?? [];
    if (defined !== undefined) diameters.set(defined, Number(inches) * INCH_MM);
    if (selected !== undefined) tool = selected;
    const unit = INCH_MM / 1e4;
    if (x !== undefined)
      hits.push({ xMm: Number(x) * unit, yMm: Number(y) * unit, diameterMm: diameters.get(tool) ?? Number.NaN });
  }
  return hits;
}
