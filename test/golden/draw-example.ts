import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/**
 * The SVG drawings of the build pack of an example, by their path in the pack, made by the command that a person runs.
 *
 * @throws Error when the command fails, with what it said.
 */
export function drawExample(example: string): ReadonlyMap<string, string> {
  const folder = mkdtempSync(join(tmpdir(), 'golden-'));
  const pack = join(folder, 'pack');
  try {
    const command = join(ROOT, 'packages', 'cli', 'bin', 'sheetwave.mjs');
    const design = join(ROOT, 'examples', example, 'design.toml');
    execFileSync(process.execPath, [command, 'make', design, '--out', pack], { encoding: 'utf8', stdio: 'pipe' });
    const paths = readdirSync(pack, { recursive: true, encoding: 'utf8' }).map((path) => path.replaceAll('\\', '/'));
    const drawings = paths.filter((path) => path.endsWith('.svg')).sort();
    return new Map(drawings.map((path) => [path, readFileSync(join(pack, path), 'utf8')] as const));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
