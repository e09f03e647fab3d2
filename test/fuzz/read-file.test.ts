import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { makePack, type PackFile } from '@sheetwave/pack';
import { describe, expect, it } from 'vitest';
import { readPackFile } from './read-file.ts';

// The readers that judge random packs must take what is sound and refuse what is not.

const EXAMPLES = join(import.meta.dirname, '..', '..', 'examples');
const designs = ['brass-2x2-5g8', 'etched-2x2-5g5'].map((name) =>
  readFileSync(join(EXAMPLES, readdirSync(EXAMPLES).find((each) => each === name) ?? '', 'design.toml'), 'utf8'),
);
const packs = await Promise.all(designs.map((designText) => makePack({ designText, toolVersion: '0.0.0' })));
const files = packs.flatMap((made) => {
  if (!made.ok) throw new Error('an example cannot be made');
  return made.files;
});
const endings = [...new Set(files.map(({ path }) => path.split('.').at(-1) ?? ''))];
const ofKind = (ending: string): PackFile => files.find(({ path }) => path.endsWith(`.${ending}`)) as PackFile;
const withText = (file: PackFile, change: (text: string) => string): PackFile => {
  const text = Buffer.from(file.bytes).toString('latin1');
  const changed = change(text);
  if (changed === text) throw new Error(`nothing was changed in ${file.path}`);
  return { ...file, bytes: Buffer.from(changed, 'latin1') };
};

/** What a grammar must notice, for each kind of text file. */
const SPOILT: Readonly<Record<string, readonly ((text: string) => string)[]>> = {
  dxf: [
    (text) => text.replace(/(\n10\n)[\d.-]+/, '$1NaN'),
    (text) => text.replace('ENDSEC', 'ENDSET'),
    (text) => text.replace(/\n0\nLWPOLYLINE\n5\n(\w+)/, '\n0\nLWPOLYLINE\n5\n5'),
    (text) => text.replace('\n10\n', '\nten\n'),
  ],
  svg: [
    (text) => text.replace(/ d="M/, ' d="MNaN'),
    (text) => text.replace('</g>', ''),
    (text) => text.replace('</text>', '&</text>'),
    (text) => text.replace('<path ', '<path <'),
  ],
  pdf: [
    (text) => text.replace(' re\n', ' NaN re\n').replace(' m\n', ' NaN m\n'),
    (text) => text.replace('1 0 obj', '01 0 obj'),
  ],
  gbr: [(text) => text.replace('M02*', ''), (text) => text.replace(/X-?\d+Y/, 'XNaNY')],
  drl: [(text) => text.replace('M30', ''), (text) => text.replace(/\nX[-\d.]+Y/, '\nXNaNY')],
  json: [(text) => text.replace(/"bytes": \d+|"quantity": \d+/, '"quantity": null')],
  gbrjob: [(text) => text.slice(0, -4)],
  csv: [(text) => text.replace(',', ',,'), (text) => text.replace(/\r\n$/, '')],
  html: [(text) => text.replace('</h2>', ''), (text) => text.replace('<h2', 'NaN mm<h2')],
  md: [(text) => `${text}NaN mm\n`],
  stl: [(text) => text.slice(0, -50), (text) => `${text.slice(0, 96)}\u0000\u0000\u00c0\u007f${text.slice(100)}`],
};

describe.each(endings)('a %s file', (ending) => {
  it('is read when it is sound', async () => {
    for (const file of files.filter(({ path }) => path.endsWith(`.${ending}`))) await readPackFile(file);
  });

  it('is refused when it is cut short or spoilt', async () => {
    const file = ofKind(ending);
    if (!['md', 'csv'].includes(ending)) {
      const half = { ...file, bytes: file.bytes.slice(0, file.bytes.length >> 1) };
      await expect(readPackFile(half)).rejects.toThrow();
    }
    for (const [index, spoil] of (SPOILT[ending] ?? []).entries())
      await expect(readPackFile(withText(file, spoil)), `${ending} ${index}`).rejects.toThrow();
  });
});

it('a file of a kind that nothing reads is refused', async () => {
  await expect(readPackFile({ path: 'x.xyz', kind: '', part: undefined, bytes: new Uint8Array() })).rejects.toThrow();
});
