import { makePack, type PackFile } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { earlierPrediction } from './earlier-prediction.ts';
import { EXIT } from './exit-code.ts';
import { readDrawings } from './read-drawings.ts';
import { nameOfInput, readDesignText } from './read-input.ts';
import { countText, findingLines, type Outcome } from './report.ts';
import { folderNamed, type Made, type Written, writeMade, writtenJson, wroteWords } from './write-made.ts';

/** `sheetwave make DESIGN [--out DIR]`. */
export async function runMake(context: Context): Promise<Outcome> {
  const { terminal, operand = '-', version, say } = context;
  const designText = await readDesignText(operand, terminal);
  const drawings = await readDrawings(designText, operand, terminal);
  const made = await makePack({
    designText,
    drawings,
    toolVersion: version,
    predictionOf: (sound) => earlierPrediction(context, folderNamed(context), sound),
  });
  const name = nameOfInput(operand);
  say(findingLines(made.findings, name, { output: terminal.stderr, env: terminal.env }));
  if (made.ok) return write(context, made);
  say(`${name} cannot be made: ${countText(made.findings)}. Nothing was written.\n`);
  return { exitCode: EXIT.designHasErrors, json: { findings: made.findings }, text: '' };
}

async function write(context: Context, made: Made): Promise<Outcome> {
  const written = await writeMade(context, made);
  return {
    exitCode: EXIT.done,
    json: { findings: made.findings, ...writtenJson(written) },
    text: packText(written),
  };
}

function packText(written: Written): string {
  const rows = [...countByFolder(written.files)].map(([folder, count]) => folderRow(folder, count));
  const tail = 'Start with summary.md: it lists the parts, the cautions and which file is for which step.';
  return `${[`${wroteWords(written)}:`, ...rows, tail].join('\n')}\n`;
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
  prediction: 'what it will do',
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
