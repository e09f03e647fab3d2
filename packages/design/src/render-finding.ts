import type { Finding } from './finding.ts';

/** `allowed` that names a thing reads "is not …" after a value and "needs …" without one. */
const NAMES_A_THING = /^(?:an?|one of|at least|at most|more than|less than|true or false|\d)\b/;

/** `layer[0].length` → `layer 1 length`: people count from 1, and the brackets would say otherwise. */
function pathInWords(path: string): string {
  return path
    .replace(/\[(\d{1,6})\]\.?/g, (_, index) => ` ${Number(index) + 1} `)
    .replace(/ +/g, ' ')
    .trimEnd();
}

function middle({ value, allowed }: Finding): string {
  if (NAMES_A_THING.test(allowed)) return value === '' ? `needs ${allowed}` : `${value} is not ${allowed}`;
  return value === '' ? allowed : `${value} ${allowed}`;
}

function place(finding: Finding, file: string | undefined): string {
  const { line, column } = finding;
  const at = line === undefined ? [] : column === undefined ? [line] : [line, column];
  const parts =
    file === undefined ? (at.length > 0 ? [`line ${at.join(', column ')}`] : []) : [[file, ...at].join(':')];
  return parts.map((part) => `${part}: `).join('');
}

/**
 * One sentence: `layer 1 length: 0 mm is not a length; give at least 0.1 mm`, with `file:line:column` before it when they are known.
 * The severity is left to whoever prints it.
 */
export function renderFinding(finding: Finding, { file }: { readonly file?: string | undefined } = {}): string {
  const subject = finding.path === '' ? '' : `${pathInWords(finding.path)}: `;
  return `${place(finding, file)}${subject}${middle(finding)}; ${finding.remedy}`;
}
