import { EXIT } from './exit-code.ts';

/** Ends a command early with a message for the user and an exit code. Not a fault of ours. */
export class Failure extends Error {
  /** Stable word for programs. */
  readonly code: string;
  readonly exitCode: number;
  /** More for `--json`. */
  readonly data: Readonly<Record<string, unknown>>;
  constructor(code: string, exitCode: number, message: string, data: Readonly<Record<string, unknown>> = {}) {
    super(message);
    this.data = data;
    this.code = code;
    this.exitCode = exitCode;
  }
}

export const usageFailure = (message: string): Failure => new Failure('usage', EXIT.usage, message);
export const fileFailure = (code: string, message: string): Failure => new Failure(code, EXIT.files, message);

/** The system's word for what went wrong (`ENOENT`), or '' when an error carries none. */
export function systemCode(error: unknown): string {
  const code = error instanceof Error ? (error as NodeJS.ErrnoException).code : undefined;
  return typeof code === 'string' ? code : '';
}

const WHY: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EACCES: 'you may not open it',
  EPERM: 'you may not do that there',
  EISDIR: 'it is a folder',
  ENOTDIR: 'something on the way to it is not a folder',
  ELOOP: 'links lead in a circle',
  ENAMETOOLONG: 'the name is too long',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  EFBIG: 'you may not write files that large',
  EROFS: 'the disk can only be read',
  EMFILE: 'too many files are open',
};

/** A system error as a clause; rethrows what is not one. */
export function whyOf(error: unknown): string {
  const code = systemCode(error);
  if (code === '') throw error;
  return whyCode(code);
}

/** One of the system's codes as a clause. */
export function whyCode(code: string): string {
  return WHY[code] ?? `the system says ${code}`;
}
