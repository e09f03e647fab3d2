import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readDesign, renderFinding } from '@sheetwave/design';
import { type Assembly, assemble } from '@sheetwave/geometry';

const EXAMPLES = fileURLToPath(new URL('../../examples/', import.meta.url));

/** Every example of the repository, read and assembled. Throws when one of them cannot be made. */
export function exampleAssemblies(): readonly { readonly name: string; readonly assembly: Assembly }[] {
  return readdirSync(EXAMPLES)
    .filter((name) => existsSync(`${EXAMPLES}${name}/design.toml`))
    .sort()
    .map((name) => ({ name, assembly: assembled(readFileSync(`${EXAMPLES}${name}/design.toml`, 'utf8')) }));
}

function assembled(text: string): Assembly {
  const reading = readDesign(text);
  const made = reading.design === undefined ? undefined : assemble(reading.design);
  if (made?.assembly !== undefined) return made.assembly;
  throw new Error([...reading.findings, ...(made?.findings ?? [])].map((finding) => renderFinding(finding)).join('\n'));
}
