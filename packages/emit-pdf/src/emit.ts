import { drillMap, etchFilms, type FlatPart, flatParts, markingTemplate, type PartDrawing } from '@sheetwave/drawings';
import type { Assembly, EmittedFile, FileKind } from '@sheetwave/geometry';
import { pagedPdf } from './pages.ts';

/**
 * Drill maps, marking-out templates and etch films at 1:1 on pages that a printer takes, one file for each part and drawing. The
 * same assembly gives the same bytes.
 *
 * @throws Error when `design.date` is not an ISO 8601 date.
 */
export function emitPdf(assembly: Assembly): readonly EmittedFile[] {
  const drawings = [...flatParts(assembly).flatMap((part) => partDrawings(assembly, part)), ...filmDrawings(assembly)];
  return drawings.map(({ path, kind, part, drawing }) => {
    const { paper, date } = assembly.design;
    return { path, kind, part, bytes: pagedPdf(drawing, { paper, date }) };
  });
}

interface Named {
  readonly path: string;
  readonly kind: FileKind;
  readonly part: string;
  readonly drawing: PartDrawing;
}

function partDrawings(assembly: Assembly, part: FlatPart): readonly Named[] {
  const { id } = part;
  const map = drillMap(assembly, part);
  const drawings: Named[] = [];
  if (map !== undefined)
    drawings.push({ path: `templates/${id}-drill-map.pdf`, kind: 'drill-map-pdf', part: id, drawing: map });
  if (part.form === 'plate') {
    const drawing = markingTemplate(assembly, part);
    drawings.push({ path: `templates/${id}-template.pdf`, kind: 'template-pdf', part: id, drawing });
  }
  return drawings;
}

function filmDrawings(assembly: Assembly): readonly Named[] {
  return etchFilms(assembly).map(({ part, side, drawing }) => ({
    path: `etch/${part.id}-${side}-film.pdf`,
    kind: 'etch-mask',
    part: part.id,
    drawing,
  }));
}
