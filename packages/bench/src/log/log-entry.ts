import type { Cable } from '../sweep/cable.ts';

/** A file that the log keeps a copy of, by its name within the log's folder. */
export interface KeptFile {
  readonly file: string;
  /** Of its bytes, in hexadecimal. */
  readonly sha256: string;
}

/** One thing that was done. Only ever added. */
export interface LogEntry {
  /** From 1, without gaps. */
  readonly number: number;
  /** ISO 8601, as handed in: `2026-05-17` or with a time. */
  readonly date: string;
  /** The design as it was then. */
  readonly design: KeptFile & { readonly name: string; readonly revision: string };
  readonly sweep?: KeptFile & {
    /** What the file was called. */
    readonly name: string;
    /** The test cable that is still in the sweep. */
    readonly cable?: Cable;
  };
  /** What the caliper read, by the path of the dimension in the design, mm. */
  readonly measuredMm?: Readonly<Record<string, number>>;
  readonly note?: string;
}

type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): value is string => typeof value === 'string';
const isSize = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
/** A name inside the log's folder: two plain parts, never a way out of it. */
const isInside = (value: unknown): value is string =>
  isText(value) && /^[a-z]+\/[A-Za-z0-9][A-Za-z0-9._-]*$/.test(value);
const isKept = (value: unknown): value is Fields => isFields(value) && isInside(value.file) && isText(value.sha256);

function isCable(value: unknown): boolean {
  return (
    value === undefined || (isFields(value) && isSize(value.delayS) && isSize(value.lossDb) && isSize(value.lossAtHz))
  );
}

/** Whether data from a log are an entry as it is written here. */
export function isLogEntry(value: unknown): value is LogEntry {
  if (!isFields(value) || !isText(value.date)) return false;
  if (!(Number.isInteger(value.number) && Number(value.number) >= 1)) return false;
  const { design, sweep, measuredMm, note } = value;
  if (!(isKept(design) && isText(design.name) && isText(design.revision))) return false;
  if (sweep !== undefined && !(isKept(sweep) && isText(sweep.name) && isCable(sweep.cable))) return false;
  if (measuredMm !== undefined && !(isFields(measuredMm) && Object.values(measuredMm).every(isSize))) return false;
  return note === undefined || isText(note);
}
