import type { Pen } from '@sheetwave/drawings';
import type { Bounds } from '@sheetwave/geometry';

/** A picture of the whole or of a stack, before anyone has chosen what it is drawn on. */
export interface Picture {
  readonly title: string;
  readonly about: string;
  /** The paper it fills, in the coordinates of its pen, mm. */
  readonly page: Bounds;
  draw(pen: Pen): void;
}
