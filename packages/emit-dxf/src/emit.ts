import type { Assembly, EmittedFile } from '@sheetwave/geometry';
import { plateDrawing } from './plate.ts';
import { writeDxf } from './writer.ts';

/**
 * One cut file for each plate of the assembly, `cut/<id>.dxf`, in the part's own plane seen from in front, millimetres.
 * Boards are not among them: a board house cuts along the profile layer.
 *
 * Layers: ENGRAVE marks, DRILL holes to drill (finished diameter), CUT_INNER cut-outs and the holes that the machine
 * cuts itself, ROUGH_CUT the line to saw on where the process leaves stock to file off, CUT_OUTER the outside, NOTE words
 * and a 100 mm check line. Outlines are finished sizes unless the process says that cut files carry the tool path.
 *
 * @throws Error when a hole or cut-out is too narrow for a compensated kerf, or the assembly holds a line twice.
 */
export function emitDxf(assembly: Assembly): EmittedFile[] {
  return assembly.parts
    .filter((part) => part.form === 'plate')
    .map((part) => ({
      path: `cut/${part.id}.dxf`,
      kind: 'cut-dxf',
      part: part.id,
      bytes: writeDxf(plateDrawing(part, assembly.design)),
    }));
}
