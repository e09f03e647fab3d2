import type { Finding } from './finding.ts';
import { type KeyPath, pathText } from './path.ts';

/** What a check has to say, with the place as keys. */
export interface Remark {
  readonly code: string;
  readonly path: KeyPath;
  readonly value?: string;
  readonly allowed: string;
  readonly remedy: string;
}

/** Place in the file, 1-based. */
export interface Position {
  readonly line: number;
  readonly column: number;
}
/** Finds the place of a key, or of the nearest table around it; undefined when the text is not known. */
export type Locate = (path: KeyPath) => Position | undefined;

/** Collects findings while a design is read. */
export interface Report {
  readonly findings: readonly Finding[];
  error(remark: Remark): undefined;
  warning(remark: Remark): undefined;
}

/** An empty report whose findings carry the places that `locate` knows. */
export function createReport(locate: Locate): Report {
  const findings: Finding[] = [];
  const add = (severity: Finding['severity'], remark: Remark): undefined => {
    const { code, path, value = '', allowed, remedy } = remark;
    findings.push({ code, severity, path: pathText(path), value, allowed, remedy, ...locate(path) });
    return undefined;
  };
  return {
    findings,
    error: (remark) => add('error', remark),
    warning: (remark) => add('warning', remark),
  };
}
