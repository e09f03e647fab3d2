import { resolve } from 'node:path';
import { type MakePackResult, makePack, type PackFile, type WriteProblem, writePack } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure } from './failure.ts';
import { packFolderName } from './pack-folder-name.ts';
import { readDrawings } from './read-drawings.ts';
import { nameOfInput, readDesignText } from './read-input.ts';
import { countText, findingLines, type Outcome } from './report.ts';
import { visible } from './terminal.ts';

/** `sheetwave make DESIGN [--out DIR]`. */
export async function runMake(context: Context): Promise<Outcome> {
  const { terminal, operand = '-', version, say } = context;
  const designText = await readDesignText(operand, terminal);
  const drawings = await readDrawings(designText, operand, terminal);
  const made = await makePack({ designText, drawings, toolVersion: version });
  const name = nameOfInput(operand);
  say(findingLines(made.findings, name, { output: terminal.stderr, env: terminal.env }));
  if (made.ok) return write(context, made);
  say(`${name} cannot be made: ${countText(made.findings)}. Nothing was written.\n`);
  return { exitCode: EXIT.designHasErrors, json: { findings: made.findings }, text: '' };
}

type Made = Extract<MakePackResult, { ok: true }>;

async function write({ terminal, operand = '-', values, say }: Context, made: Made): Promise<Outcome> {
  const { workingFolder } = terminal;
  const named = values.get('out') ?? packFolderName(operand, workingFolder);
  const { value: result, by } = await terminal.interruptible((signal) =>
    writePack({ folder: resolve(workingFolder, named), files: made.files, workingFolder, signal }),
  );
  if (!result.written) throw failureOf(result.problem, { named, made, by });
  for (const left of result.leftBehind) say(`${visible(left)} could not be removed; look into it, then delete it\n`);
  const files = made.files.map(({ path, kind, part, bytes }) => ({
    path,
    kind,
    part: part ?? null,
    bytes: bytes.length,
  }));
  return {
    exitCode: EXIT.done,
    json: { folder: result.folder, replaced: result.replaced, findings: made.findings, files },
    text: packText({ named, replaced: result.replaced, files: made.files }),
  };
}

interface Attempt {
  readonly named: string;
  readonly made: Made;
  readonly by: 'SIGINT' | 'SIGTERM' | undefined;
}

function failureOf(problem: WriteProblem, { named, made, by }: Attempt): Failure {
  const stopped = by === 'SIGTERM' ? EXIT.terminated : EXIT.interrupted;
  const exitCode = problem.code === 'interrupted' ? stopped : EXIT.files;
  const message = `${visible(named)} ${visible(problem.why)}; ${problem.remedy}`;
  return new Failure(problem.code, exitCode, message, { findings: made.findings });
}

interface Written {
  readonly named: string;
  readonly replaced: boolean;
  readonly files: readonly PackFile[];
}

function packText({ named, replaced, files }: Written): string {
  const head = `Wrote ${files.length} files to ${visible(named)}${replaced ? ', in place of the earlier pack' : ''}:`;
  const rows = [...countByFolder(files)].map(([folder, count]) => folderRow(folder, count));
  const tail = 'Start with summary.md: it lists the parts, the cautions and which file is for which step.';
  return `${[head, ...rows, tail].join('\n')}\n`;
}

/** What the folders of a pack hold; one that is missing here shows its name alone. */
const FOLDER_WORDS: Readonly<Record<string, string>> = {
  '': 'parts list, summary and manifest',
  cut: 'drawings for cutting sheet',
  copper: 'artwork of the boards',
  drill: 'drill files of the boards',
  templates: 'paper templates and drill maps, 1:1',
  etch: 'films for etching boards at home, 1:1',
  jigs: 'spacers and jigs to print',
  pictures: 'what it is to become',
};

function folderRow(folder: string, count: number): string {
  return `  ${`${folder}/`.replace(/^\/$/, '.').padEnd(12)}${String(count).padStart(3)}  ${FOLDER_WORDS[folder] ?? ''}`.trimEnd();
}

/** How many files each folder has; '' is the pack folder itself. */
function countByFolder(files: readonly PackFile[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { path } of files) {
    const folder = path.slice(0, Math.max(0, path.indexOf('/')));
    counts.set(folder, (counts.get(folder) ?? 0) + 1);
  }
  return counts;
}
