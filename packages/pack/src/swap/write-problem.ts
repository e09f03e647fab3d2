import { errorCode } from './folder-io.ts';

/** Why a pack could not be written. The earlier pack, if there was one, is untouched. */
export interface WriteProblem {
  /** Stable word for programs. */
  readonly code:
    | 'not-a-pack'
    | 'not-a-folder'
    | 'files-of-yours'
    | 'working-folder'
    | 'busy'
    | 'disk-full'
    | 'no-permission'
    | 'cannot-write'
    | 'interrupted';
  /** The folder or file it is about. */
  readonly path: string;
  /** What is the matter, as a clause that follows the path. */
  readonly why: string;
  /** What to do, as an imperative. */
  readonly remedy: string;
}

/** Thrown inside the swap-in to leave it from any depth; `writePack` hands the problem out as data. */
export class WriteRefused extends Error {
  readonly problem: WriteProblem;
  constructor(problem: WriteProblem) {
    super(`${problem.path} ${problem.why}; ${problem.remedy}`);
    this.problem = problem;
  }
}

/** Another run got there first. */
export function busy(folder: string): WriteProblem {
  const why = 'was written by another run at the same moment';
  return { code: 'busy', path: folder, why, remedy: 'look at it, then run the command again' };
}

type Wording = Pick<WriteProblem, 'code' | 'why' | 'remedy'>;

const DENIED: Wording = {
  code: 'no-permission',
  why: 'may not be written by you',
  remedy: 'give another folder with --out, or change its permissions',
};
const FULL: Wording = {
  code: 'disk-full',
  why: 'does not fit: the disk or your share of it is full',
  remedy: 'free some space, or give a folder on another disk with --out',
};
const IN_USE: Wording = {
  code: 'cannot-write',
  why: 'cannot be swapped: it is the root of a disk or in use by another program',
  remedy: 'give a folder inside it with --out',
};
const THROUGH_FILE: Wording = {
  code: 'not-a-folder',
  why: 'cannot be made: something on the way to it is not a folder',
  remedy: 'give another folder with --out',
};

const WORDING: Readonly<Record<string, Wording>> = {
  ENOSPC: FULL,
  EDQUOT: FULL,
  EFBIG: FULL,
  EACCES: DENIED,
  EPERM: DENIED,
  EROFS: { ...DENIED, why: 'is on a disk that can only be read' },
  EBUSY: IN_USE,
  EXDEV: IN_USE,
  ENOTDIR: THROUGH_FILE,
  EEXIST: THROUGH_FILE,
  ENOENT: {
    code: 'busy',
    why: 'was moved or removed by another program at the same moment',
    remedy: 'look at it, then run the command again',
  },
  ENAMETOOLONG: { code: 'cannot-write', why: 'is too long a name', remedy: 'give a shorter one with --out' },
  ELOOP: { code: 'cannot-write', why: 'is reached through links that lead in a circle', remedy: 'repair the links' },
};

/** A system error as a problem with the pack folder; throws the error on when it is not one of the system's. */
export function problemFromError(error: unknown, folder: string): WriteProblem {
  if (error instanceof WriteRefused) return error.problem;
  const code = errorCode(error);
  if (code === '') throw error;
  const wording = WORDING[code] ?? {
    code: 'cannot-write',
    why: `cannot be written (${code})`,
    remedy: 'see to the disk',
  };
  return { ...wording, path: folder };
}
