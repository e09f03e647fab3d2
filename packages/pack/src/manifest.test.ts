import { describe, expect, it } from 'vitest';
import { makeManifest, readManifest } from './manifest.ts';
import { isSafePath } from './safe-path.ts';
import { sha256Hex } from './sha256.ts';

const encode = (text: string) => new TextEncoder().encode(text);
const file = (path: string, text: string) => ({ path, kind: 'summary', part: undefined, bytes: encode(text) });
const manifest = () =>
  makeManifest({
    toolVersion: '9.8.7',
    name: 'Heron Lock',
    revision: 'B',
    designText: 'name = "Heron Lock"\n',
    files: [file('parts.csv', 'abc'), file('cut/b.dxf', ''), file('cut/a.dxf', 'x')],
  });

describe('manifest', () => {
  it('hashes as FIPS 180-4 says (source: FIPS 180-4 example "abc", and the empty message; memory)', () => {
    expect(sha256Hex(encode('abc'))).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
    expect(sha256Hex(encode(''))).toBe('e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855');
  });

  it('lists every file in the order of its path with its size and hash', () => {
    expect(manifest().files.map((f) => [f.path, f.bytes])).toEqual([
      ['cut/a.dxf', 1],
      ['cut/b.dxf', 0],
      ['parts.csv', 3],
    ]);
    expect(manifest().files[2]?.sha256).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  it('carries the design file whole', () => {
    expect(manifest().design).toMatchObject({ name: 'Heron Lock', revision: 'B', text: 'name = "Heron Lock"\n' });
  });

  it('is read back', () => {
    expect(readManifest(encode(JSON.stringify(manifest())))).toEqual(manifest());
  });

  it.each([
    ['', 'nothing'],
    ['{', 'cut off'],
    ['[]', 'a list'],
    ['null', 'null'],
    ['{"name":"x","version":"1.0.0"}', 'another program’s pack.json'],
    ['{"format":1,"tool":{"name":"other"},"files":[]}', 'another tool'],
    ['{"format":1,"tool":{"name":"sheetwave"},"files":[{"path":"../up","sha256":""}]}', 'a path out of the pack'],
    ['{"format":1,"tool":{"name":"sheetwave"},"files":[{"path":"/etc/hosts","sha256":""}]}', 'an absolute path'],
    ['{"format":1,"tool":{"name":"sheetwave"},"files":[3]}', 'no file list'],
  ])('does not take %j for one of ours (%s)', (text) => {
    expect(readManifest(encode(text))).toBeUndefined();
  });
});

describe('paths of a pack', () => {
  it.each(['cut/patch-driven.dxf', 'parts.csv', 'a/b/c_1.svg'])('takes %s', (path) => {
    expect(isSafePath(path)).toBe(true);
  });
  it.each([
    '',
    '/a',
    'a//b',
    'a/../b',
    '..',
    '.hidden',
    'a/',
    'a\\b',
    'a b',
    'a\nb',
    'nul.dxf',
    'cut/COM1',
    'aux',
    'a.',
    '-a',
    'x'.repeat(201),
  ])('refuses %j', (path) => {
    expect(isSafePath(path)).toBe(false);
  });
});
