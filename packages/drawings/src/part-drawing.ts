import type { Bounds } from '@sheetwave/geometry';
import type { Block } from './block.ts';
import type { Pen } from './pen.ts';
import type { Stretch } from './print-check.ts';

/** A drawing of one part at 1:1, before anyone has chosen the paper it goes on. */
export interface PartDrawing {
  readonly title: string;
  readonly about: string;
  /** The box of the part with everything drawn about it, in the part's own coordinates, mm. */
  readonly drawing: Bounds;
  /** What belongs on the sheet beside it, most important first. */
  readonly blocks: readonly Block[];
  /** When everything in it is stretched: what checks the print must then be stretched alike. */
  readonly stretch?: Stretch;
  draw(pen: Pen): void;
}
