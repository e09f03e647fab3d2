import type { Pen } from '@sheetwave/drawings';
import { textBox, union } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';
import { INK, QUIET } from './palette.ts';

/** The heading of a picture: the name of the design, and what is seen. `at` is the left end of the name's baseline. */
export interface PictureTitle {
  readonly at: Point;
  readonly name: string;
  readonly words: string;
}

const NAME = { sizeMm: 6, bold: true } as const;
const WORDS = { sizeMm: 2.8 } as const;

const wordsAt = ({ at }: PictureTitle): Point => ({ x: at.x, y: at.y - 5 });

export function pictureTitleBox(title: PictureTitle): Bounds {
  return union(textBox(title.name, title.at, NAME), textBox(title.words, wordsAt(title), WORDS));
}

export function drawPictureTitle(pen: Pen, title: PictureTitle): void {
  pen.text(title.at, title.name, { ...NAME, colour: INK });
  pen.text(wordsAt(title), title.words, { ...WORDS, colour: QUIET });
}
