import { drillMap, flatParts, markingTemplate, type PartDrawing } from '@sheetwave/drawings';
import type { Assembly, EmittedFile, FileKind } from '@sheetwave/geometry';
import { pagedPdf } from './pages.ts';
import type { Paper } from './paper.ts';

const PAPER: Paper = { size: 'a4', marginMm: 8, overlapMm: 10 };

/**
 * Drill maps and marking-out templates at 1:1 on pages that a printer takes, one file for each part and drawing. The same
 * assembly gives the same bytes.
 *
 * @throws Error when `design.date` is not an ISO 8601 date.
 */
export function emitPdf(assembly: Assembly): readonly EmittedFile[] {
  return flatParts(assembly).flatMap((part) => {
    const map = drillMap(assembly, part);
    const name = `templates/${part.id}`;
    return [
      ...(map === undefined
        ? []
        : [fileOf(map, { assembly, part: part.id, path: `${name}-drill-map.pdf`, kind: 'drill-map-pdf' })]),
      ...(part.form === 'plate'
        ? [
            fileOf(markingTemplate(assembly, part), {
              assembly,
              part: part.id,
              path: `${name}-template.pdf`,
              kind: 'template-pdf',
            }),
          ]
        : []),
    ];
  });
}

interface About {
  readonly assembly: Assembly;
  readonly part: string;
  readonly path: string;
  readonly kind: FileKind;
}

function fileOf(drawing: PartDrawing, { assembly, part, path, kind }: About): EmittedFile {
  return { path, kind, part, bytes: pagedPdf(drawing, { paper: PAPER, date: assembly.design.date }) };
}
