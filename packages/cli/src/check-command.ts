import { checkDesign } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { readDrawings } from './read-drawings.ts';
import { nameOfInput, readDesignText } from './read-input.ts';
import { countText, findingLines, type Outcome } from './report.ts';

/** `sheetwave check DESIGN`. */
export async function runCheck({ terminal, operand = '-' }: Context): Promise<Outcome> {
  const designText = await readDesignText(operand, terminal);
  const result = checkDesign({ designText, drawings: await readDrawings(designText, operand, terminal) });
  const name = nameOfInput(operand);
  const count = countText(result.findings);
  const verdict = result.ok ? `${name} can be made` : `${name} cannot be made yet`;
  const lines = findingLines(result.findings, name, { output: terminal.stdout, env: terminal.env });
  return {
    exitCode: result.ok ? EXIT.done : EXIT.designHasErrors,
    json: { findings: result.findings },
    text: `${lines}${verdict}${count === '' ? '' : `: ${count}`}.\n`,
  };
}
