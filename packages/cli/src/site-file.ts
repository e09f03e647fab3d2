import { dirname, join } from 'node:path';
import { namedProfile, readSite, type SiteReading } from '@sheetwave/design';
import type { Context } from './context.ts';
import { usageFailure } from './failure.ts';
import { readBeside } from './read-beside.ts';
import { readDesignText } from './read-input.ts';
import { visible } from './terminal.ts';

export interface SiteFile {
  /** As it was given, or where it was looked for. */
  readonly name: string;
  readonly text: string;
  /** Of the profile that the site names, as messages show it. */
  readonly profilePath: string;
  readonly read: SiteReading;
}

/** The site of `--site`, or the one beside the design, with its profile. Throws a Failure when one of the files cannot be read. */
export async function readSiteFile({ operand, values, terminal }: Context): Promise<SiteFile> {
  const name = values.get('site') ?? siteBeside(operand);
  if (operand === '-' && name === '-') throw usageFailure('standard input can be the design or the site, not both');
  const text = await readDesignText(name, terminal, 'site');
  const profileName = namedProfile(text);
  const profile =
    profileName === undefined
      ? undefined
      : await readBeside({ operand: name, name: profileName, kind: 'profile', owner: 'site', asText: 'CSV' }, terminal);
  return {
    name,
    text,
    profilePath: visible(join(dirname(name), profileName ?? '')),
    read: readSite(text, { profile }),
  };
}

/** The site lies beside the design, or in the current folder. */
function siteBeside(operand: string | undefined): string {
  return operand === undefined || operand === '-' ? 'site.toml' : join(dirname(operand), 'site.toml');
}
