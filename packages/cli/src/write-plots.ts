import { stat } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Figure } from '@sheetwave/drawings';
import { figureSvg } from '@sheetwave/emit-svg';
import type { Context } from './context.ts';
import { fileFailure } from './failure.ts';
import { writeNewFile } from './new-design-file.ts';
import { visible } from './terminal.ts';

/**
 * Draws diagrams into the folder of `--plots`, if it is given, and gives their names. Nothing is written when one of them is there already
 * and `--force` is not. Throws a Failure then.
 */
export async function writePlots(
  { terminal, values, switches }: Context,
  figures: Readonly<Record<string, Figure>>,
): Promise<readonly string[]> {
  const folder = values.get('plots');
  if (folder === undefined) return [];
  const { workingFolder } = terminal;
  const force = switches.has('force');
  const files = Object.entries(figures).map(([name, figure]) => ({ name: join(folder, `${name}.svg`), figure }));
  for (const { name } of force ? [] : files) {
    const there = await stat(resolve(workingFolder, name)).then(
      () => true,
      () => false,
    );
    if (there)
      throw fileFailure(
        'file-exists',
        `${visible(name)} is there already; give another folder, or --force to replace it`,
      );
  }
  for (const { name, figure } of files) {
    await writeNewFile({ name, workingFolder, text: new TextDecoder().decode(figureSvg(figure)), force });
  }
  return files.map(({ name }) => name);
}
