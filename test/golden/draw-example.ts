import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { makePack } from '@sheetwave/pack';

/** The folder that holds the whole project. */
export const ROOT = join(import.meta.dirname, '..', '..');

/**
 * The SVG drawings in the build pack of an example, by their path in the pack.
 *
 * @throws Error (rejects) when the example has findings that stop its pack.
 */
export async function drawExample(example: string): Promise<ReadonlyMap<string, string>> {
  const designText = readFileSync(join(ROOT, 'examples', example, 'design.toml'), 'utf8');
  const { version } = JSON.parse(readFileSync(join(ROOT, 'packages', 'cli', 'package.json'), 'utf8'));
  const made = await makePack({ designText, toolVersion: version });
  if (!made.ok) throw new Error(`${example} cannot be made: ${JSON.stringify(made.findings)}`);
  const drawings = made.files.filter((file) => file.path.endsWith('.svg'));
  return new Map(drawings.map((file) => [file.path, new TextDecoder().decode(file.bytes)] as const));
}
