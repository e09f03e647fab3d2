import type { PackFile } from '@sheetwave/pack';
import { drillWithParser } from '../clients/drill-reader.ts';
import { readGerber } from '../clients/gerber-grammar.ts';
import { badEdges, readMesh } from '../main-job/stl-mesh.ts';
import { readDxf } from './dxf-grammar.ts';
import { readPdf } from './pdf-grammar.ts';
import { readXml } from './xml-grammar.ts';

const READERS: Readonly<Record<string, (bytes: Uint8Array) => unknown>> = {
  dxf: readDxf,
  gbr: readGerber,
  gbrjob: readJson,
  json: readJson,
  drl: readDrill,
  svg: readXml,
  pdf: readPdf,
  stl: readStl,
  '3mf': readZip,
  csv: readCsv,
  md: readPage,
  html: readHtml,
};

/** Reads one file of a pack by the grammar of its kind. Rejects at the first thing that is wrong with it, or when nothing reads its kind. */
export async function readPackFile({ path, bytes }: PackFile): Promise<void> {
  const reader = READERS[path.split('.').at(-1) ?? ''];
  if (reader === undefined) throw new Error('a kind of file that nothing here reads');
  await reader(bytes);
}

function textOf(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
}

function readJson(bytes: Uint8Array): void {
  JSON.parse(textOf(bytes), (key, value) => {
    if (value === null && key !== 'part' && key !== 'response') requireNamedGap(key);
    return value;
  });
}

/** JSON writes NaN and infinities as null, so a null under the name of a number is one. */
function requireNamedGap(key: string): void {
  if (/(?:Mm|Hz|Deg|Kg|Db|Dbi|bytes|quantity|value|error)$/.test(key)) throw new Error(`${key} is null`);
}

async function readDrill(bytes: Uint8Array): Promise<void> {
  const text = textOf(bytes);
  if (!text.startsWith('M48\n') || !text.endsWith('M30\n')) throw new Error('no M48 at the start or no M30 at the end');
  const hits = await drillWithParser(bytes);
  const bad = hits.find(
    ({ xMm, yMm, diameterMm }) => !Number.isFinite(xMm) || !Number.isFinite(yMm) || !(diameterMm > 0),
  );
  if (bad !== undefined || hits.length === 0) throw new Error(`a hole that is none: ${JSON.stringify(bad)}`);
}

function readStl(bytes: Uint8Array): void {
  const { facets } = readMesh(bytes);
  if (facets.length < 4 || !facets.flat(2).every(Number.isFinite)) throw new Error('facets that are none');
  if (badEdges(facets) > 0) throw new Error(`${badEdges(facets)} edges without a partner`);
}

/** Local file header and end of central directory (PKWARE APPNOTE 4.3.7 and 4.3.16; memory). */
function readZip(bytes: Uint8Array): void {
  const text = Buffer.from(bytes).toString('latin1');
  if (!text.startsWith('PK\u0003\u0004') || !text.includes('PK\u0005\u0006')) throw new Error('not a zip archive');
}

/** RFC 4180: every record has as many fields as the first. */
function readCsv(bytes: Uint8Array): void {
  const text = textOf(bytes);
  const records = text.match(/(?:"(?:[^"]|"")*"|[^"\n])*\r\n/g) ?? [];
  if (records.join('') !== text) throw new Error('a record without an end, or a bare quote');
  const counts = new Set(records.map((record) => record.match(/(?:^|,)(?:"(?:[^"]|"")*"|[^",\r\n]*)/g)?.length));
  if (counts.size !== 1) throw new Error(`records of ${[...counts].join(', ')} fields`);
}

function readPage(bytes: Uint8Array): void {
  const text = textOf(bytes);
  const found = /\b(?:NaN|Infinity|undefined)\b|\[object /.exec(text);
  if (found !== null)
    throw new Error(`says ${found[0]}: ${text.slice(Math.max(0, found.index - 60), found.index + 20)}`);
}

/** A page for the screen: a document type, then a tree in which every element is ended but those that HTML never ends (HTML Living Standard, 13.1.2, void elements; memory). */
function readHtml(bytes: Uint8Array): void {
  const text = textOf(bytes);
  if (!text.startsWith('<!DOCTYPE html>\n')) throw new Error('no document type');
  const tree = text
    .slice(text.indexOf('\n') + 1)
    .replace(/<((?:meta|br|hr|img|link|input|col|wbr)\b[^<>]*[^<>/])>/g, '<$1/>');
  readXml(Buffer.from(tree, 'utf8'));
  readPage(bytes);
}
