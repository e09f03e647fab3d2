import { newDesignText } from '@sheetwave/design';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { writeNewFile } from './new-design-file.ts';
import type { Outcome } from './report.ts';
import { visible } from './terminal.ts';

/** `sheetwave new [FILE]`. */
export async function runNew({ terminal, operand = 'design.toml', switches }: Context): Promise<Outcome> {
  const { workingFolder } = terminal;
  await writeNewFile({ name: operand, workingFolder, text: newDesignText(), force: switches.has('force') });
  const name = visible(operand);
  return {
    exitCode: EXIT.done,
    json: { file: operand },
    text: `Wrote ${name}. Change what you need, then: sheetwave make ${name}\n`,
  };
}
