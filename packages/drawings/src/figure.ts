import type { Pen } from './pen.ts';

/** A drawing with a size of its own: for a file, or for a place in a document. Its lower left corner is (0, 0), mm, y up. */
export interface Figure {
  readonly title: string;
  /** A sentence or two on what is seen, for who cannot see it. */
  readonly about: string;
  readonly widthMm: number;
  readonly heightMm: number;
  draw(pen: Pen): void;
}
