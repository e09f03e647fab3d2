import type { PredictionRecord, PredictionRequest } from './prediction/prediction-record.ts';
import { isSafePath } from './safe-path.ts';
import { sha256Hex } from './sha256.ts';

/** The manifest's own place in the pack. It lists every other file. */
export const MANIFEST_PATH = 'pack.json';

/** One file of a pack as its manifest names it. */
export interface ManifestFile {
  readonly path: string;
  readonly kind: string;
  /** Id of the part it shows, or null when it shows several. */
  readonly part: string | null;
  readonly bytes: number;
  /** SHA-256 of the contents, hexadecimal. */
  readonly sha256: string;
}

/** A drawing that the design names, whole. */
export interface ManifestDrawing {
  /** As the design names it: a path below the folder of the design. */
  readonly name: string;
  /** SHA-256 of `text` in UTF-8. */
  readonly sha256: string;
  readonly text: string;
}

/** What the field solver was asked for earlier and went into a pack: the same antenna by its key, and where its numbers are. */
export interface ManifestSolution {
  /** Digest of the antenna as the solver sees it, of what was asked, and of the solver. */
  readonly key: string;
  readonly request: PredictionRequest;
}

/** `pack.json`: what a pack holds and the design that it came from. */
export interface Manifest {
  readonly format: 1;
  readonly tool: { readonly name: 'sheetwave'; readonly version: string };
  readonly design: {
    readonly name: string;
    readonly revision: string;
    /** SHA-256 of `text` in UTF-8. */
    readonly sha256: string;
    /** The whole design file, so that the pack can be made again from itself. */
    readonly text: string;
    /** The drawings that the design names, in the order of their names; left out when it names none. */
    readonly drawings?: readonly ManifestDrawing[];
  };
  /** Field solutions that the pack was made with beside the design; left out when there was none. */
  readonly solutions?: {
    readonly prediction?: ManifestSolution;
    readonly sensitivities?: ManifestSolution;
  };
  /** Every file but the manifest, in the order of their paths (by code unit). */
  readonly files: readonly ManifestFile[];
}

/** One file of a pack, in memory. */
export interface PackFile {
  readonly path: string;
  readonly kind: string;
  readonly part: string | undefined;
  readonly bytes: Uint8Array;
}

export interface ManifestInput {
  readonly toolVersion: string;
  readonly name: string;
  readonly revision: string;
  readonly designText: string;
  readonly drawings?: Readonly<Record<string, string>>;
  readonly solutions?: { readonly prediction: Solution | undefined; readonly sensitivities: Solution | undefined };
  readonly files: readonly PackFile[];
}

type Solution = Pick<PredictionRecord, 'key' | 'request'>;

/** The manifest of a set of files. The same input gives the same manifest: no clock, host or folder enters it. */
export function makeManifest(input: ManifestInput): Manifest {
  const text = input.designText;
  return {
    format: 1,
    tool: { name: 'sheetwave', version: input.toolVersion },
    design: { name: input.name, revision: input.revision, sha256: sha256OfText(text), text, ...drawingsOf(input) },
    ...solutionsOf(input),
    files: [...input.files].sort((a, b) => (a.path < b.path ? -1 : 1)).map(manifestFile),
  };
}

const sha256OfText = (text: string): string => sha256Hex(new TextEncoder().encode(text));

function drawingsOf({ drawings = {} }: ManifestInput): Pick<Manifest['design'], 'drawings'> {
  const named = Object.entries(drawings).sort(([a], [b]) => (a < b ? -1 : 1));
  if (named.length === 0) return {};
  return { drawings: named.map(([name, text]) => ({ name, sha256: sha256OfText(text), text })) };
}

function solutionsOf({ solutions }: ManifestInput): Pick<Manifest, 'solutions'> {
  const [prediction, sensitivities] = [solutions?.prediction, solutions?.sensitivities].map(
    (one): ManifestSolution | undefined => one && { key: one.key, request: one.request },
  );
  if (prediction === undefined && sensitivities === undefined) return {};
  return { solutions: { ...(prediction && { prediction }), ...(sensitivities && { sensitivities }) } };
}

function manifestFile(file: PackFile): ManifestFile {
  return {
    path: file.path,
    kind: file.kind,
    part: file.part ?? null,
    bytes: file.bytes.length,
    sha256: sha256Hex(file.bytes),
  };
}

/**
 * The manifest in the contents of a `pack.json`, or undefined when it is not one of ours: not JSON, another tool,
 * or a file list whose paths could lead out of the pack.
 */
export function readManifest(bytes: Uint8Array): Manifest | undefined {
  const value = parseJson(new TextDecoder().decode(bytes));
  if (!isRecord(value) || !isRecord(value.tool) || value.tool.name !== 'sheetwave') return undefined;
  if (typeof value.format !== 'number' || !Array.isArray(value.files)) return undefined;
  return value.files.every(isManifestFile) ? (value as unknown as Manifest) : undefined;
}

function isManifestFile(value: unknown): boolean {
  if (!isRecord(value) || typeof value.path !== 'string' || typeof value.sha256 !== 'string') return false;
  return isSafePath(value.path) && value.path !== MANIFEST_PATH;
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
