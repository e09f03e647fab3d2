import { drillMap, flatParts, markingTemplate, type PartDrawing } from '@sheetwave/drawings';
import type { Assembly } from '@sheetwave/geometry';
import { list, paragraph, type Section } from '../document.ts';

/** The drawings that hand tools follow, in the order of the parts. */
export function fullSizeDrawings(assembly: Assembly): readonly PartDrawing[] {
  return flatParts(assembly).flatMap((part) => {
    const map = drillMap(assembly, part);
    return [...(part.form === 'plate' ? [markingTemplate(assembly, part)] : []), ...(map === undefined ? [] : [map])];
  });
}

/** What stands before them. Empty where nothing is cut or drilled by hand. */
export function fullSizeSection(drawings: readonly PartDrawing[]): readonly Section[] {
  if (drawings.length === 0) return [];
  return [
    {
      id: 'full-size',
      title: 'Templates and drill maps at 1:1',
      blocks: [
        paragraph(
          'They follow, each on pages of its own, and are in the folder templates of the pack as well. Print at 100 %, and measure the bar and the square of every page before you use it.',
        ),
        list(drawings.map(({ title }) => title)),
      ],
    },
  ];
}
