import { plain } from '@sheetwave/drawings';
import { list, paragraph, type Section, table } from '../document.ts';
import type { PlanInput } from '../input.ts';

/** All of the estimate, each number with its error, and what it rests on. */
export function numbers({ estimate }: PlanInput): Section {
  const texts: string[] = [];
  const numberOf = (text: string): string => {
    if (!texts.includes(text)) texts.push(text);
    return String(texts.indexOf(text) + 1);
  };
  const rows = estimate.lines.map(({ what, value, error, unit, digits, origin, doubts }) => [
    what,
    `${plain(value, digits)} ${unit}`,
    `± ${plain(error, digits)} ${unit}`,
    [origin, ...doubts].map(numberOf).join(', '),
  ]);
  return {
    id: 'numbers',
    title: 'The estimate in full',
    blocks: [
      paragraph('From closed formulas. The remarks say what each number rests on and where it may be further off.'),
      ...(rows.length === 0 ? [] : [table('Estimate', ['what', 'expected', 'may be off by', 'remarks'], rows)]),
      ...(texts.length === 0 ? [] : [list(texts.map((text, index) => `Remark ${index + 1}: ${text}`))]),
      ...(estimate.leavesOut.length === 0 ? [] : [paragraph('The estimate leaves out:'), list(estimate.leavesOut)]),
    ],
  };
}
