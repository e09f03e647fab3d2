import type { Paper } from '@sheetwave/design';

/** A page size in mm, upright. */
export interface PaperSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** ISO 216 (A4) and ANSI/ASME Y14.1 (letter, 8.5 by 11 inch). Confirmed. */
const PAPER_SIZES = {
  a4: { widthMm: 210, heightMm: 297 },
  letter: { widthMm: 215.9, heightMm: 279.4 },
} as const satisfies Readonly<Record<string, PaperSize>>;

/** Upright first: chosen where both ways take the same number of pages. */
export function bothWays(paper: Paper): readonly [PaperSize, PaperSize] {
  const { widthMm, heightMm } = PAPER_SIZES[paper.size];
  return [
    { widthMm, heightMm },
    { widthMm: heightMm, heightMm: widthMm },
  ];
}
