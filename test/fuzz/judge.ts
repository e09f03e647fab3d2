import { createHash } from 'node:crypto';
import { type Finding, renderFinding } from '@sheetwave/design';
import { MANIFEST_PATH, makePack, type PackFile, readManifest } from '@sheetwave/pack';
import type { FuzzCase } from './fuzz-case.ts';
import { readPackFile } from './read-file.ts';

/** What became of a case: a sound pack, clear findings, or what is wrong with either. */
export type Verdict = { readonly outcome: 'pack' | 'findings' } | { readonly outcome: 'fault'; readonly what: string };

/** The contract of `makePack`: a pack in which every file is sound, or findings that tell what to do. Never anything else. */
export async function judge({ designText, drawings }: FuzzCase): Promise<Verdict> {
  const input = {
    designText,
    drawings: Object.fromEntries(drawings.map(({ name, text }) => [name, text])),
    toolVersion: '0.0.0',
  };
  try {
    const made = await makePack(input);
    const faults = made.findings.flatMap(faultsOfFinding);
    if (!made.ok && !made.findings.some(({ severity }) => severity === 'error'))
      faults.push('refused without an error');
    if (made.ok) faults.push(...(await faultsOfFiles(made.files)), ...differences(made.files, await makePack(input)));
    if (faults.length > 0) return { outcome: 'fault', what: faults.slice(0, 3).join('; ') };
    return { outcome: made.ok ? 'pack' : 'findings' };
  } catch (error) {
    return { outcome: 'fault', what: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

function faultsOfFinding(finding: Finding): string[] {
  const { code, allowed, remedy, line = 1, column = 1 } = finding;
  const words = renderFinding(finding);
  const ours = `${allowed} ${remedy}`;
  const faults = [
    /^[a-z][a-z0-9-]*$/.test(code) ? [] : [`code ${JSON.stringify(code)}`],
    allowed === '' || remedy === '' ? ['no words'] : [],
    /\bNaN\b|\bundefined\b|\bInfinity\b|\[object/.test(ours) &&
    !/\bNaN\b|\bundefined\b|\bInfinity\b/i.test(finding.value)
      ? ['words of the inside']
      : [],
    line >= 1 && column >= 1 ? [] : [`place ${line}:${column}`],
    words.length > 5000 ? [`${words.length} letters long`] : [],
  ].flat();
  return faults.map((fault) => `finding ${code} at ${finding.path.slice(0, 80)}: ${fault}: ${words.slice(0, 200)}`);
}

async function faultsOfFiles(files: readonly PackFile[]): Promise<string[]> {
  const faults = await Promise.all(files.map(faultOfFile));
  return [...faults.flat(), ...faultsOfManifest(files)];
}

async function faultOfFile(file: PackFile): Promise<string[]> {
  try {
    await readPackFile(file);
    return [];
  } catch (error) {
    return [`${file.path}: ${error instanceof Error ? error.message : String(error)}`];
  }
}

function faultsOfManifest(files: readonly PackFile[]): string[] {
  const bytes = files.find(({ path }) => path === MANIFEST_PATH)?.bytes;
  const manifest = bytes === undefined ? undefined : readManifest(bytes);
  if (manifest === undefined) return ['no manifest that can be read'];
  const listed = new Map(manifest.files.map((file) => [file.path, file]));
  const others = files.filter(({ path }) => path !== MANIFEST_PATH);
  const wrong = others.filter((file) => {
    const entry = listed.get(file.path);
    return entry?.bytes !== file.bytes.length || entry.sha256 !== hash(file.bytes);
  });
  return [
    ...wrong.map(({ path }) => `${path}: another size or sum than the manifest says`),
    ...(listed.size === others.length ? [] : [`the manifest lists ${listed.size} of ${others.length} files`]),
  ];
}

const hash = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

function differences(files: readonly PackFile[], again: Awaited<ReturnType<typeof makePack>>): string[] {
  if (!again.ok) return ['refused when made again'];
  const sums = new Map(again.files.map(({ path, bytes }) => [path, hash(bytes)]));
  const differing = files.filter(({ path, bytes }) => sums.get(path) !== hash(bytes));
  return differing.map(({ path }) => `${path}: other bytes when made again`);
}
