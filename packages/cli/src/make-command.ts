import { makePack, type PackFile, type PredictionRecord, type SensitivityRecord } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { type Kept, predictionForPack, sensitivitiesForPack } from './kept-solutions.ts';
import { readDrawings } from './read-drawings.ts';
import { nameOfInput, readDesignText } from './read-input.ts';
import { countText, findingLines, type Outcome } from './report.ts';
import { visible } from './terminal.ts';
import { folderNamed, type Made, type Written, writeMade, writtenJson, wroteWords } from './write-made.ts';

/** `sheetwave make DESIGN [--out DIR]`. */
export async function runMake(context: Context): Promise<Outcome> {
  const { terminal, operand = '-', version, say } = context;
  const designText = await readDesignText(operand, terminal);
  const drawings = await readDrawings(designText, operand, terminal);
  const folder = folderNamed(context);
  let [prediction, sensitivities]: Solved = [undefined, undefined];
  const made = await makePack({
    designText,
    drawings,
    toolVersion: version,
    predictionOf: async (sound) => {
      prediction = await predictionForPack(context, folder, sound);
      return prediction?.record;
    },
    sensitivitiesOf: async (sound) => {
      sensitivities = await sensitivitiesForPack(context, folder, sound);
      return sensitivities?.record;
    },
  });
  const name = nameOfInput(operand);
  say(findingLines(made.findings, name, { output: terminal.stderr, env: terminal.env }));
  if (made.ok) return write(context, made, [prediction, sensitivities]);
  say(`${name} cannot be made: ${countText(made.findings)}. Nothing was written.\n`);
  return { exitCode: EXIT.designHasErrors, json: { findings: made.findings }, text: '' };
}

type Solved = [Kept<PredictionRecord> | undefined, Kept<SensitivityRecord> | undefined];

async function write(context: Context, made: Made, solved: Solved): Promise<Outcome> {
  const written = await writeMade(context, made);
  const [prediction, sensitivities] = solved;
  return {
    exitCode: EXIT.done,
    json: {
      findings: made.findings,
      ...writtenJson(written),
      prediction: keptJson(prediction),
      sensitivities: keptJson(sensitivities),
    },
    text: packText(written, solved),
  };
}

const keptJson = (kept: Solved[number]) =>
  kept === undefined ? null : { found: kept.found, key: kept.record.key, request: kept.record.request };

function packText(written: Written, [prediction, sensitivities]: Solved): string {
  const rows = [...countByFolder(written.files)].map(([folder, count]) => folderRow(folder, count));
  const tail = 'Start with summary.md: it lists the parts, the cautions and which file is for which step.';
  const solved = [
    prediction === undefined
      ? 'No prediction: sheetwave predict makes one, for the plan too.'
      : `The prediction is ${keptWords(prediction)}.`,
    sensitivities === undefined
      ? 'What 0.1 mm does is estimated: sheetwave sensitivity solves it, for the plan too.'
      : `What 0.1 mm does is ${keptWords(sensitivities)}.`,
  ];
  return `${[`${wroteWords(written)}:`, ...rows, ...solved, tail].join('\n')}\n`;
}

const keptWords = ({ found, record }: Kept<PredictionRecord | SensitivityRecord>): string =>
  `${visible(found)} (${record.request.quality} grid)`;

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
