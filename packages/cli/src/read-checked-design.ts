import type { Finding } from '@sheetwave/design';
import { type CheckResult, checkDesign } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure } from './failure.ts';
import { readDrawings } from './read-drawings.ts';
import { nameOfInput, readDesignText } from './read-input.ts';
import { countText, findingLines } from './report.ts';

export interface CheckedDesign {
  readonly text: string;
  readonly drawings: Readonly<Record<string, string>>;
  readonly checked: Extract<CheckResult, { ok: true }>;
  readonly findings: readonly Finding[];
}

/** Reads and checks a design that is only asked about: its warnings are left to `check`. Throws a Failure, with its findings, for one with errors. */
export async function readCheckedDesign({ terminal, operand = '-', say }: Context): Promise<CheckedDesign> {
  const text = await readDesignText(operand, terminal);
  const drawings = await readDrawings(text, operand, terminal);
  const checked = checkDesign({ designText: text, drawings });
  if (checked.ok) return { text, drawings, checked, findings: checked.findings };
  const name = nameOfInput(operand);
  say(findingLines(checked.findings, name, { output: terminal.stderr, env: terminal.env }));
  const message = `${name} has to be sound first: ${countText(checked.findings)}`;
  throw new Failure('bad-design', EXIT.designHasErrors, message, { findings: checked.findings });
}
