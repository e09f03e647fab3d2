import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Manifest, PACKAGES, ROOT, readManifest, readText } from './workspace.ts';

/** Licences that let anybody use, change and pass on the work, by their SPDX names (SPDX License List). */
const PERMISSIVE = new Set([
  'MIT',
  'ISC',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  'BSL-1.0',
  'MPL-2.0',
  '0BSD',
  'CC0-1.0',
  'BlueOak-1.0.0',
  'Unlicense',
  'Zlib',
  'Bitstream-Vera',
]);

interface LockEntry {
  readonly version?: string;
  readonly license?: string;
  readonly link?: boolean;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly hasInstallScript?: boolean;
}

const lock: { packages: Record<string, LockEntry> } = JSON.parse(readText('package-lock.json'));
const outside = Object.entries(lock.packages).filter(([path, entry]) => path.includes('node_modules/') && !entry.link);

/**
 * Packages that state no SPDX name, and what their licence text was read to be. DejaVu fonts: the licence of Bitstream Vera and of
 * Arev, which lets anybody embed, copy and change them under another name; the changes of DejaVu are in the public domain.
 */
const READ_BY_HAND: Readonly<Record<string, string>> = {
  'node_modules/dejavu-fonts-ttf': 'Bitstream-Vera',
  'node_modules/png-js': 'MIT',
};

/** The licence a package states itself; for one of another platform, which is not installed, what the lock file says. */
function licenceOf(path: string, entry: LockEntry): string {
  const read = READ_BY_HAND[path];
  if (read !== undefined) return read;
  if (!existsSync(join(ROOT, path, 'package.json'))) return entry.license ?? '';
  const stated = (readManifest(path) as { license?: string | { type?: string } }).license;
  return typeof stated === 'string' ? stated : (stated?.type ?? '');
}

/** SPDX expressions (SPDX 2.3, annex D) as far as npm packages use them: any side of OR, every side of AND. */
function isPermissive(expression: string): boolean {
  const bare = expression.replace(/^\((.*)\)$/, '$1').trim();
  if (/ OR /.test(bare)) return bare.split(' OR ').some(isPermissive);
  if (/ AND /.test(bare)) return bare.split(' AND ').every(isPermissive);
  return PERMISSIVE.has(bare);
}

describe('dependencies', () => {
  test('the expressions are read rightly', () => {
    expect(isPermissive('(MIT OR GPL-3.0-only)')).toBe(true);
    expect(isPermissive('MIT AND GPL-3.0-only')).toBe(false);
    expect(isPermissive('')).toBe(false);
  });

  test('every package that is installed has a permissive licence', () => {
    expect(outside.length).toBeGreaterThan(50);
    const other = outside.filter(([path, entry]) => !isPermissive(licenceOf(path, entry)));
    expect(other.map(([path, entry]) => `${path}: ${licenceOf(path, entry) || 'none stated'}`)).toEqual([]);
  });

  test('our own packages state the licence of the project', () => {
    const manifests = ['.', ...PACKAGES.map((name) => `packages/${name}`)].map(readManifest);
    expect(new Set(manifests.map((manifest) => manifest.license))).toEqual(new Set(['MIT']));
    expect(readText('LICENSE')).toMatch(/^MIT License/);
  });

  test('versions are pinned exactly', () => {
    const pinned = (manifest: Manifest) =>
      Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })
        .filter(([, version]) => !/^\d+\.\d+\.\d+(?:-[\w.]+)?$/.test(version))
        .map(([name, version]) => `${manifest.name}: ${name} ${version}`);
    expect(['.', ...PACKAGES.map((name) => `packages/${name}`)].map(readManifest).flatMap(pinned)).toEqual([]);
  });

  test('the lock file pins each package by its digest and names no address', () => {
    expect(outside.filter(([, entry]) => !entry.integrity).map(([path]) => path)).toEqual([]);
    expect(outside.filter(([, entry]) => entry.resolved !== undefined).map(([path]) => path)).toEqual([]);
  });

  test('nothing runs a program of its own while it is installed', () => {
    const runs = outside.filter(([path, entry]) => entry.hasInstallScript && existsSync(join(ROOT, path)));
    expect(runs.map(([path]) => path)).toEqual([]);
  });
});
