import type { Figure } from '@sheetwave/drawings';
import type { Picture } from '@sheetwave/pictures';
import type { PlanFigure } from './document.ts';

/** A picture among the words. */
export const ofPicture = (id: string, caption: string, picture: Picture): PlanFigure => ({
  id,
  caption,
  alt: picture.title,
  box: picture.page,
  toScale: false,
  draw: (pen) => picture.draw(pen),
});

/** A diagram among the words. */
export const ofFigure = (id: string, caption: string, figure: Figure): PlanFigure => ({
  id,
  caption,
  alt: figure.about,
  box: { minX: 0, minY: 0, maxX: figure.widthMm, maxY: figure.heightMm },
  toScale: false,
  draw: (pen) => figure.draw(pen),
});
