import {
  type Assembly,
  bounds,
  boundsOfPoints,
  type Contour,
  type PlatePart,
  type Point,
  sawLine,
  toolPath,
} from '@sheetwave/geometry';
import type { DxfDrawing } from './drawing.ts';
import { contourEntity } from './loop.ts';
import { splitHoles } from './machined-holes.ts';
import { markEntities } from './marks.ts';
import { noteBlock, noteLines } from './notes.ts';

/** Between the part and the notes below it. */
const NOTE_GAP_MM = 10;

/** Everything one cut file shows: marks, holes to drill, inside contours, the outside, and notes below the part. */
export function plateDrawing(part: PlatePart, design: Assembly['design']): DxfDrawing {
  const cut = cutContours(part);
  const box = bounds(cut.rough ?? cut.outer);
  const notes = noteBlock(noteLines(part, design), { x: box.minX, y: box.minY - NOTE_GAP_MM });
  const corners: Point[] = [
    { x: box.maxX, y: box.maxY },
    { x: box.minX, y: notes.lowestY },
    { x: box.minX + notes.widthMm, y: notes.lowestY },
  ];
  return {
    entities: [
      ...markEntities(part.marks),
      ...cut.drilled.map((hole) => contourEntity(hole, 'DRILL')),
      ...cut.inner.map((contour) => contourEntity(contour, 'CUT_INNER')),
      ...(cut.rough === undefined ? [] : [contourEntity(cut.rough, 'ROUGH_CUT')]),
      contourEntity(cut.outer, 'CUT_OUTER'),
      ...notes.entities,
    ],
    extents: boundsOfPoints(corners),
  };
}

interface CutContours {
  readonly drilled: readonly Contour[];
  readonly inner: readonly Contour[];
  readonly outer: Contour;
  /** The line to saw on before filing to `outer`. */
  readonly rough: Contour | undefined;
}

/** Drilled holes are finished sizes always; what the machine cuts follows its tool path when the process asks for that. */
function cutContours(part: PlatePart): CutContours {
  const { cut, drilled } = splitHoles(part);
  const { outline, process } = part;
  const path = toolPath({ ...outline, holes: cut }, process);
  return {
    drilled: drilled.map(({ centre, diameterMm }) => ({ kind: 'circle', centre, radiusMm: diameterMm / 2 })),
    inner: [...path.holes, ...path.cutouts],
    outer: path.outer,
    rough: sawLine(path.outer, process.allowanceMm),
  };
}
