import { resolve } from 'node:path';
import { type MakePackResult, type PackFile, problemOfPlace, type WriteProblem, writePack } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure } from './failure.ts';
import { packFolderName } from './pack-folder-name.ts';
import { visible } from './terminal.ts';

export type Made = Extract<MakePackResult, { ok: true }>;

/** A pack in its place. */
export interface Written {
  /** As the user named it. */
  readonly named: string;
  readonly folder: string;
  readonly replaced: boolean;
  readonly files: readonly PackFile[];
}

/** The folder that a pack goes into, as the user named it or by the name of the design. */
export function folderNamed({ terminal, operand = '-', values }: Context): string {
  return values.get('out') ?? packFolderName(operand, terminal.workingFolder);
}

/** Throws a Failure when a pack cannot go where it is to go, as far as that can be told before it is made. */
export async function refusePlace(context: Context, findings: Made['findings']): Promise<void> {
  const { workingFolder } = context.terminal;
  const named = folderNamed(context);
  const problem = await problemOfPlace({ folder: resolve(workingFolder, named), workingFolder });
  if (problem !== undefined) throw failureOf(problem, { named, made: { findings }, by: undefined });
}

/** Writes a pack whole. Throws a Failure when the folder is not free, the disk refuses, or the user interrupts. */
export async function writeMade(context: Context, made: Made): Promise<Written> {
  const { terminal, say } = context;
  const { workingFolder } = terminal;
  const named = folderNamed(context);
  const { value: result, by } = await terminal.interruptible((signal) =>
    writePack({ folder: resolve(workingFolder, named), files: made.files, workingFolder, signal }),
  );
  if (!result.written) throw failureOf(result.problem, { named, made, by });
  for (const left of result.leftBehind) say(`${visible(left)} could not be removed; look into it, then delete it\n`);
  return { named, folder: result.folder, replaced: result.replaced, files: made.files };
}

interface Attempt {
  readonly named: string;
  readonly made: Pick<Made, 'findings'>;
  readonly by: 'SIGINT' | 'SIGTERM' | undefined;
}

function failureOf(problem: WriteProblem, { named, made, by }: Attempt): Failure {
  const exitCode = problem.code === 'interrupted' ? stoppedCode(by) : EXIT.files;
  const message = `${visible(named)} ${visible(problem.why)}; ${problem.remedy}`;
  return new Failure(problem.code, exitCode, message, { findings: made.findings });
}

/** The exit code of work that a signal ended. */
export const stoppedCode = (by: Attempt['by']): number => (by === 'SIGTERM' ? EXIT.terminated : EXIT.interrupted);

/** The written pack for `--json`. */
export function writtenJson({ folder, replaced, files }: Written): Readonly<Record<string, unknown>> {
  return {
    folder,
    replaced,
    files: files.map(({ path, kind, part, bytes }) => ({ path, kind, part: part ?? null, bytes: bytes.length })),
  };
}

/** `Wrote 51 files to brass-pack, in place of the earlier pack`. */
export function wroteWords({ named, replaced, files }: Written): string {
  return `Wrote ${files.length} files to ${visible(named)}${replaced ? ', in place of the earlier pack' : ''}`;
}
