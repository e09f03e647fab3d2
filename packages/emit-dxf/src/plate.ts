import { type Assembly, bounds, boundsOfPoints, type PlatePart, type Point } from '@sheetwave/geometry';
import { type CutContours, cutContours, cutEntities, cutNotes } from './cut-contours.ts';
import type { DxfDrawing, DxfEntity } from './drawing.ts';
import { markEntities } from './marks.ts';
import { noteBlock, noteLines } from './notes.ts';

/** Between the part and the notes below it. */
const NOTE_GAP_MM = 10;

/** Everything one cut file shows: marks, holes to drill, inside contours, the outside, and notes below the part. */
export function plateDrawing(part: PlatePart, design: Assembly['design']): DxfDrawing {
  const cut = cutContours(part);
  return annotated(cut, {
    entities: [...markEntities(part.marks), ...cutEntities(cut)],
    notes: noteLines(part, design, cutNotes(cut, part.process)),
  });
}

/** Entities of one plate with notes below it. */
export function annotated(
  cut: CutContours,
  drawn: { readonly entities: readonly DxfEntity[]; readonly notes: readonly string[] },
): DxfDrawing {
  const box = bounds(cut.rough ?? cut.outer);
  const notes = noteBlock(drawn.notes, { x: box.minX, y: box.minY - NOTE_GAP_MM });
  const corners: Point[] = [
    { x: box.maxX, y: box.maxY },
    { x: box.minX, y: notes.lowestY },
    { x: box.minX + notes.widthMm, y: notes.lowestY },
  ];
  return { entities: [...drawn.entities, ...notes.entities], extents: boundsOfPoints(corners) };
}
