import { bounds, type Outline, type Point } from '@sheetwave/geometry';

/** Where the dimensions of a part count from: the left and the lower edge, or the centre of a round part. */
export function datumOf(outline: Outline): Point {
  const { outer } = outline;
  if (outer.kind === 'circle') return outer.centre;
  const { minX, minY } = bounds(outer);
  return { x: minX, y: minY };
}

export const datumWords = ({ outer }: Outline): string =>
  outer.kind === 'circle'
    ? 'Dimensions count from the two centre lines.'
    : 'Dimensions count from the left and the lower edge, seen from the front.';
