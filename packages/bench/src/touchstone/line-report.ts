import type { Finding } from '@sheetwave/design';

/** How many errors are told before the rest of the file is left alone. */
const MOST_ERRORS = 10;

export interface LineRemark {
  readonly code: string;
  readonly value?: string;
  readonly allowed: string;
  readonly remedy: string;
  /** When it is not the line being read. */
  readonly line?: number;
  readonly column?: number;
}

/** Collects findings while a file is read line by line. */
export interface LineReport {
  readonly findings: readonly Finding[];
  /** The line being read, from 1. */
  line: number;
  /** True once so much is wrong that reading on tells nothing new. */
  readonly stopped: boolean;
  error(remark: LineRemark): void;
  warning(remark: LineRemark): void;
  note(remark: LineRemark): void;
  /** Tells an error after which nothing can be read. */
  stop(remark: LineRemark): void;
}

export function createLineReport(): LineReport {
  const findings: Finding[] = [];
  let errors = 0;
  let stopped = false;
  const report = {
    findings,
    line: 0,
    get stopped() {
      return stopped;
    },
    error(remark: LineRemark) {
      if (stopped) return;
      add('error', remark);
      errors++;
      if (errors < MOST_ERRORS) return;
      stopped = true;
      add('note', {
        code: 'more-errors',
        allowed: 'that makes ten errors',
        remedy: 'mend these first; the rest of the file was not read',
      });
    },
    stop(remark: LineRemark) {
      if (stopped) return;
      add('error', remark);
      stopped = true;
    },
    warning: (remark: LineRemark) => add('warning', remark),
    note: (remark: LineRemark) => add('note', remark),
  };
  function add(severity: Finding['severity'], remark: LineRemark): void {
    const { code, value = '', allowed, remedy, line = report.line, column } = remark;
    const place = line > 0 ? { line, ...(column === undefined ? {} : { column }) } : {};
    findings.push({ code, severity, path: '', value: shortened(value), allowed, remedy, ...place });
  }
  return report;
}

/** A token of a stranger in a message: not longer than a message can bear. */
const shortened = (value: string): string => (value.length > 60 ? `${value.slice(0, 57)}...` : value);
