import type { Bounds, Point } from '@sheetwave/geometry';

/** First choice and fallbacks; all are wide faces, so a label takes no more room than is set aside for it. */
export const FONT_FAMILY = 'DejaVu Sans, Verdana, sans-serif';

/** Height of a capital and depth of a descender as parts of the font size (DejaVu Sans: 0.729 and 0.236). */
const CAPITAL = 0.74;
const DESCENDER = 0.24;
/** Width of what is not in the table: the widest of the signs the drawings use (×, ±, ≤ are 0.838). */
const OTHER = 0.84;

/** Advance widths of U+0020 to U+007E of DejaVu Sans, thousandths of the font size (measured from the font's metrics). */
const REGULAR =
  '318 401 460 838 636 950 780 275 390 390 500 838 318 361 318 337 636 636 636 636 636 636 636 636 636 636 337 337 838 838 838 531 ' +
  '1000 684 686 698 770 632 575 775 752 295 295 656 557 863 748 787 603 787 695 635 611 732 684 989 685 611 685 390 337 390 838 500 ' +
  '500 613 635 550 635 615 352 635 634 278 278 579 278 974 634 612 635 635 411 521 392 634 592 818 592 592 525 636 337 636 838';
/** The same for DejaVu Sans Bold. */
const BOLD =
  '348 456 521 838 696 1002 872 306 457 457 523 838 380 415 380 365 696 696 696 696 696 696 696 696 696 696 400 400 838 838 838 580 ' +
  '1000 774 762 734 830 683 683 821 837 372 372 775 637 995 837 850 733 850 770 720 682 812 774 1103 771 724 725 457 365 457 838 500 ' +
  '500 675 716 593 716 678 435 716 712 343 343 665 343 1042 712 687 716 716 493 595 478 712 652 924 645 652 582 712 365 712 838';

const WIDTHS = { regular: parseWidths(REGULAR), bold: parseWidths(BOLD) };

function parseWidths(table: string): readonly number[] {
  return table.split(' ').map((width) => Number(width) / 1000);
}

export interface TextLook {
  readonly sizeMm: number;
  readonly bold?: boolean;
}

/** Length of a line of text in mm. */
export function textWidth(text: string, look: TextLook): number {
  const widths = look.bold === true ? WIDTHS.bold : WIDTHS.regular;
  const total = [...text].reduce((sum, sign) => sum + (widths[(sign.codePointAt(0) ?? 0) - 32] ?? OTHER), 0);
  return total * look.sizeMm;
}

/** Distance from the baseline up to half the height of a capital: what centres a line on a point. */
export function halfCapital(sizeMm: number): number {
  return (CAPITAL * sizeMm) / 2;
}

export type Anchor = 'start' | 'middle' | 'end';

/** The box of a line of text whose baseline begins, is centred or ends at `at`; `upright` false is turned to read upwards. */
export function textBox(text: string, at: Point, look: TextLook & { anchor?: Anchor; upright?: boolean }): Bounds {
  const length = textWidth(text, look);
  const before = { start: 0, middle: length / 2, end: length }[look.anchor ?? 'start'];
  const [up, down] = [CAPITAL * look.sizeMm, DESCENDER * look.sizeMm];
  if (look.upright === false)
    return { minX: at.x - up, maxX: at.x + down, minY: at.y - before, maxY: at.y - before + length };
  return { minX: at.x - before, maxX: at.x - before + length, minY: at.y - down, maxY: at.y + up };
}

/** Breaks text at spaces into lines no longer than `widthMm`; a single longer word stands alone. */
export function wrapText(text: string, widthMm: number, look: TextLook): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, look) > widthMm) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return line === '' ? lines : [...lines, line];
}
