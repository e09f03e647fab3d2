import type { Pen } from '@sheetwave/drawings';
import type { PdfFile, PdfPage } from '../pdf-file.ts';

/** Where a piece is painted. The pen draws in page coordinates: mm, y up from the lower left corner. */
export interface Spot {
  readonly file: PdfFile;
  readonly page: PdfPage;
  readonly pen: Pen;
  readonly pageHeightMm: number;
  readonly left: number;
  /** Upper edge of the piece. */
  readonly top: number;
}

/** Something that stands on one page and is as wide as its words: a line, a row of a table, a figure. */
export interface Piece {
  readonly heightMm: number;
  /** White above it, left out at the top of a page. */
  readonly beforeMm: number;
  /** True when the next piece must be on the same page. */
  readonly keepsNext: boolean;
  /** True when it begins a page. */
  readonly beginsPage?: boolean;
  /** Id of the section that it begins. */
  readonly section?: string;
  /** Painted above it when it comes first on a page: the head of a table that goes on. */
  readonly repeat?: Piece;
  paint(spot: Spot): void;
}
