import { parse, TomlDate, TomlError } from 'smol-toml';
import type { Design } from './design.ts';
import type { Finding } from './finding.ts';
import { locateIn, locateNothing } from './locate.ts';
import { createReport, type Report } from './report.ts';
import { resolveDesign } from './resolve/resolve-design.ts';
import { type DesignFile, designFileSchema } from './schema/design-file.ts';
import { reportIssues } from './schema/findings-of-issues.ts';

/** A design, or why there is none. Warnings may come with a design; an error never does. */
export interface Reading {
  readonly design: Design | undefined;
  readonly findings: readonly Finding[];
}

export interface ReadOptions {
  /** Texts of the drawings that the design names (`namedFiles` lists them), by those names. Default none. */
  readonly files?: Readonly<Record<string, string>>;
}

/** Largest design file that is read, in characters. */
const LARGEST = 1_000_000;

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

function readFile(file: unknown, report: Report, { files = {} }: ReadOptions): Reading {
  const read = designFileSchema.safeParse(file);
  if (!read.success) {
    reportIssues(read.error.issues, { file, base: [], report });
    return { design: undefined, findings: report.findings };
  }
  const design = resolveDesign(read.data, report, new Map(Object.entries(files)));
  const failed = report.findings.some((finding) => finding.severity === 'error');
  return { design: failed ? undefined : design, findings: report.findings };
}

function wholeFile(code: string, allowed: string, remedy: string): Finding {
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
function parseText(text: string): { readonly file: unknown } | { readonly finding: Finding } {
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

/**
 * Reads a design file (TOML, format 1). Never throws on text: what is wrong comes back as findings, and then there is no design.
 * Lengths of the design are mm, frequencies Hz; the design is frozen.
 */
export function readDesign(text: string, options: ReadOptions = {}): Reading {
  if (text.length > LARGEST) {
    const finding = wholeFile('too-large', 'larger than 1 MB and is no design file', 'give the design file itself');
    return { design: undefined, findings: [finding] };
  }
  const parsed = parseText(text);
  if ('finding' in parsed) return { design: undefined, findings: [parsed.finding] };
  return readFile(parsed.file, createReport(locateIn(text)), options);
}

/** The same from an object of the file's shape, written in TypeScript. */
export function defineDesign(file: DesignFile, options: ReadOptions = {}): Reading {
  return readFile(file, createReport(locateNothing), options);
}
