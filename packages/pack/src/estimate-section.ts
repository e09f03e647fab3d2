import { numberText } from '@sheetwave/plan';
import type { EstimateLine, EstimateReport } from '@sheetwave/predict';
import { bullets, plain, table } from './markdown.ts';

/**
 * The estimate for the builder: a table of numbers with their errors, and under it, numbered, what each rests on and where
 * its formula is out of its depth. Empty when there is nothing to expect.
 */
export function estimateSection({ lines, leavesOut }: EstimateReport): string {
  if (lines.length === 0) return leavesOut.map(plain).join('\n\n');
  const remarks = new Remarks();
  const rows = lines.map((line) => [
    plain(line.what),
    shown(line, line.value),
    `± ${shown(line, line.error)}`,
    [line.origin, ...line.doubts].map((text) => remarks.numberOf(text)).join(', '),
  ]);
  const blocks = [
    'From closed formulas, not from a field calculation and not from a measurement. The second number says how far off the first may be; the remarks say what that rests on and where it may be more.',
    table(['what', 'expected', 'may be off by', 'remarks'], rows),
    remarks.list(),
  ];
  if (leavesOut.length > 0) blocks.push(`The estimate leaves out:\n\n${bullets(leavesOut.map(plain))}`);
  return blocks.join('\n\n');
}

/** Sentences that many lines share, each told once. */
class Remarks {
  private readonly texts: string[] = [];

  numberOf(text: string): string {
    if (!this.texts.includes(text)) this.texts.push(text);
    return String(this.texts.indexOf(text) + 1);
  }

  list(): string {
    return this.texts.map((text, index) => `${index + 1}. ${plain(text)}`).join('\n');
  }
}

function shown(line: EstimateLine, value: number): string {
  return `${numberText(value, line.digits)} ${plain(line.unit)}`.trim();
}
