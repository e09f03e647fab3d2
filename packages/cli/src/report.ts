import { type Finding, renderFinding } from '@sheetwave/design';
import { type Output, paint, type Terminal, visible } from './terminal.ts';

/** What a command hands to `run`: the exit code, the object for `--json`, and the text for a person. */
export interface Outcome {
  readonly exitCode: number;
  readonly json: Readonly<Record<string, unknown>>;
  /** For standard output when `--json` is off. */
  readonly text: string;
}

/** Findings as lines, the word of the severity first. */
export function findingLines(
  findings: readonly Finding[],
  file: string,
  to: { output: Output; env: Terminal['env'] },
): string {
  return findings
    .map(
      (finding) => `${paint(finding.severity, finding.severity, to)}: ${visible(renderFinding(finding, { file }))}\n`,
    )
    .join('');
}

/** `2 errors, 1 warning`, or `` when there is nothing to count. */
export function countText(findings: readonly Finding[]): string {
  const count = (severity: Finding['severity']) => findings.filter((finding) => finding.severity === severity).length;
  return (['error', 'warning', 'note'] as const)
    .map((severity) => [count(severity), severity] as const)
    .filter(([n]) => n > 0)
    .map(([n, word]) => `${n} ${word}${n === 1 ? '' : 's'}`)
    .join(', ');
}
