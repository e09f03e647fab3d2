import { fileURLToPath } from 'node:url';
import { runClient } from './client.ts';
import { withFile } from './dxf-clients.ts';
import type { Box } from './pdf-trace.ts';

const MEASURE = fileURLToPath(new URL('measure-ink.py', import.meta.url));

function ask(command: string, before: readonly string[], bytes: Uint8Array, after: readonly string[] = []): string {
  return withFile('pages.pdf', bytes, (file) => {
    const ended = runClient(command, [...before, file, ...after]);
    if (ended.status !== 0) throw new Error(`${command}: ${ended.status} ${ended.stderr}`);
    return ended.stdout;
  });
}

/** What qpdf says about the structure of a PDF; it ends with an error status for anything it has to repair. */
export const structureOf = (bytes: Uint8Array): string => ask('qpdf', ['--check'], bytes);

/** Title and page sizes in mm, as poppler reads them. */
export function infoOf(bytes: Uint8Array) {
  const text = ask('pdfinfo', ['-f', '1', '-l', '999'], bytes);
  const sizes = [...text.matchAll(/^Page +\d+ size: +([\d.]+) x ([\d.]+) pts/gm)];
  return {
    title: /^Title: +(.*)$/m.exec(text)?.[1] ?? '',
    pages: sizes.map(([, width, height]) => [(Number(width) / 72) * 25.4, (Number(height) / 72) * 25.4] as const),
  };
}

/** Faces of a PDF and whether each is embedded. */
export function fontsOf(bytes: Uint8Array): readonly { readonly name: string; readonly embedded: boolean }[] {
  const [head = '', , ...rows] = ask('pdffonts', [], bytes).trimEnd().split('\n');
  const column = head.indexOf('emb');
  return rows.map((row) => ({ name: row.split(' ')[0] ?? '', embedded: row.slice(column, column + 3) === 'yes' }));
}

/** Words in the order in which the file draws them. */
export const wordsOf = (bytes: Uint8Array): string => ask('pdftotext', ['-raw'], bytes, ['-']);

/** An entry of the catalogue, as MuPDF prints it. */
export const catalogueEntry = (bytes: Uint8Array, path: string): string =>
  ask('mutool', ['show'], bytes, [`trailer/Root/${path}`]).trim();

/** Area of the ink within a box of a page of a PDF, in mm², by poppler's rasteriser. */
export function inkOfPdf(bytes: Uint8Array, page: number, box: Box): number {
  return withFile('pages.pdf', bytes, (file, folder) => {
    const png = `${folder}/ink`;
    const how = ['-png', '-gray', '-singlefile', '-r', '635', '-f', `${page}`, '-l', `${page}`];
    return inkOf(runClient('pdftocairo', [...how, file, png]), `${png}.png`, box);
  });
}

/** Area of the ink within a box of an SVG, in mm², by librsvg's rasteriser. */
export function inkOfSvg(bytes: Uint8Array, box: Box): number {
  return withFile('film.svg', bytes, (file, folder) => {
    const png = `${folder}/ink.png`;
    return inkOf(runClient('rsvg-convert', ['-d', '635', '-p', '635', '-b', 'white', '-o', png, file]), png, box);
  });
}

function inkOf(drawn: { readonly status: number; readonly stderr: string }, png: string, box: Box): number {
  if (drawn.status !== 0) throw new Error(`no picture: ${drawn.stderr}`);
  const ended = runClient('/usr/bin/python3', [MEASURE, png], { input: JSON.stringify(box) });
  if (ended.status !== 0) throw new Error(`measure-ink: ${ended.stderr}`);
  return Number(ended.stdout);
}
