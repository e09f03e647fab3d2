import type { Design } from './design.ts';
import type { Finding } from './finding.ts';
import { locateIn, locateNothing } from './locate.ts';
import { createReport, type Report } from './report.ts';
import { resolveDesign } from './resolve/resolve-design.ts';
import { type DesignFile, designFileSchema } from './schema/design-file.ts';
import { type FileForm, reportIssues } from './schema/findings-of-issues.ts';
import { designJsonSchema } from './schema/json-schema.ts';
import { parseText, wholeFile } from './toml.ts';

/** A design, or why there is none. Warnings may come with a design; an error never does. */
export interface Reading {
  readonly design: Design | undefined;
  readonly findings: readonly Finding[];
}

export interface ReadOptions {
  /** Texts of the drawings that the design names (`namedFiles` lists them), by those names. Default none. */
  readonly files?: Readonly<Record<string, string>>;
}

const DESIGN_FORM: FileForm = { what: 'a design', schema: designJsonSchema };

/** Largest design file that is read, in characters. */
const LARGEST = 1_000_000;

function readFile(file: unknown, report: Report, { files = {} }: ReadOptions): Reading {
  const read = designFileSchema.safeParse(file);
  if (!read.success) {
    reportIssues(read.error.issues, { file, kind: DESIGN_FORM, base: [], report });
    return { design: undefined, findings: report.findings };
  }
  const design = resolveDesign(read.data, report, new Map(Object.entries(files)));
  const failed = report.findings.some((finding) => finding.severity === 'error');
  return { design: failed ? undefined : design, findings: report.findings };
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
