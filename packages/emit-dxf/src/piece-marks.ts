import { type Mark, type Placement, placePoint } from '@sheetwave/geometry';

/** The lines and circles to scribe on a part, where it lies on its sheet. Its words stay with its own file. */
export function pieceMarks(marks: readonly Mark[], place: Pick<Placement, 'at' | 'turnDeg'>): readonly Mark[] {
  return marks.flatMap((mark): readonly Mark[] => {
    if (mark.kind === 'line') return [{ ...mark, from: placePoint(mark.from, place), to: placePoint(mark.to, place) }];
    return mark.kind === 'circle' ? [{ ...mark, centre: placePoint(mark.centre, place) }] : [];
  });
}
