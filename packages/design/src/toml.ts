import { parse, TomlDate, TomlError } from 'smol-toml';
import type { Finding } from './finding.ts';

function isTable(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The file with TOML dates as text, the way the schema and editors see them. */
function plainDates(value: unknown): unknown {
  if (value instanceof TomlDate) return value.toISOString();
  if (Array.isArray(value)) return value.map(plainDates);
  if (!isTable(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([key, child]) => [key, plainDates(child)]));
}

/** An error about the whole file. */
export function wholeFile(code: string, allowed: string, remedy: string): Finding {
  return { code, severity: 'error', path: '', value: '', allowed, remedy };
}

function syntaxFinding(error: TomlError): Finding {
  const [, reason = 'cannot be read'] = /^Invalid TOML document: ([^\n]*)/.exec(error.message) ?? [];
  return {
    ...wholeFile('not-toml', `not a TOML document: ${reason}`, 'correct this line'),
    line: error.line,
    column: error.column,
  };
}

/** TOML as data, or the finding that says where it is wrong. */
export function parseText(text: string): { readonly file: unknown } | { readonly finding: Finding } {
  try {
    return { file: plainDates(parse(text)) };
  } catch (error) {
    if (error instanceof TomlError) return { finding: syntaxFinding(error) };
    if (error instanceof RangeError) {
      return { finding: wholeFile('too-deep', 'nested too deeply', 'write the tables as the format has them') };
    }
    throw error;
  }
}
