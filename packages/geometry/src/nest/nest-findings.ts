import type { Finding, Sheet } from '@sheetwave/design';
import { errorFinding, mm } from '../finding.ts';
import type { Footprint } from './footprint.ts';

/** Stock that is no sheet: without thickness, or with a size that is not above zero. */
export function stockFinding({ id, thicknessMm, sizesMm }: Sheet): Finding | undefined {
  const flat = sizesMm.find(([a, b]) => !(a > 0 && b > 0 && Number.isFinite(a) && Number.isFinite(b)));
  if (thicknessMm > 0 && flat === undefined) return undefined;
  return errorFinding('no-sheet', `stock ${id}`, {
    value: flat === undefined ? `thickness ${mm(thicknessMm)}` : `size ${flat[0]} x ${flat[1]} mm`,
    allowed: 'a thickness and sizes above 0 mm',
    remedy: 'correct it under [stock.sheet.…]',
  });
}

/** Stock of which no sizes are known: nothing can be laid out on it. */
export function sizelessFinding(sheet: Sheet): Finding {
  return {
    code: 'sheet-sizes-unknown',
    severity: 'note',
    path: `stock ${sheet.id}`,
    value: sheet.label,
    allowed: 'has no sizes, so its parts are not laid out on sheets',
    remedy: 'give the sizes you can buy: sizes = [["200 mm", "300 mm"]]',
  };
}

/** A part that fits on no size of its sheet, with what it needs and what there is. */
export function oversizeFinding(print: Footprint, sizes: readonly (readonly [number, number])[]): Finding {
  const { part, widthMm, heightMm } = print;
  const { edgeMarginMm, allowanceMm } = part.process;
  const [largest] = [...sizes].sort((a, b) => b[0] * b[1] - a[0] * a[1]);
  const allowance = allowanceMm > 0 ? ` with ${mm(allowanceMm)} to file off` : '';
  const grain = print.turnable ? '' : ', grain upright';
  return errorFinding('part-exceeds-stock', `part ${part.id}`, {
    value: `${mm(widthMm)} x ${mm(heightMm)}${allowance}${grain}`,
    allowed: `at most ${largest === undefined ? 'nothing' : inside(largest, edgeMarginMm)} of ${part.sheet.label}`,
    remedy: 'make it smaller, or describe a larger sheet of your own under [stock.sheet.…] with its sizes',
  });
}

function inside([width, height]: readonly [number, number], marginMm: number): string {
  const [short, long] = [Math.min(width, height), Math.max(width, height)];
  const less = (side: number): string => mm(Math.max(0, side - 2 * marginMm));
  return `${less(short)} x ${less(long)}, which is ${mm(short)} x ${mm(long)} less ${mm(marginMm)} at each edge,`;
}
