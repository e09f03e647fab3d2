import { type Assembly, type EmittedFile, kerfCoupons, nest, type PlatePart } from '@sheetwave/geometry';
import { couponDrawing } from './coupon.ts';
import type { DxfDrawing } from './drawing.ts';
import { plateDrawing } from './plate.ts';
import { sheetDrawing } from './sheet.ts';
import { tabbedDrawing } from './tabbed.ts';
import { writeDxf } from './writer.ts';

/**
 * One cut file for each plate of the assembly, `cut/<id>.dxf`, in the part's own plane seen from in front, millimetres; where the process asks
 * for bridges a second one, `cut/<id>-tabbed.dxf`. Then one for each sheet to buy with all its parts laid out, `cut/sheet-<stock>-<n>.dxf`, and a
 * kerf test coupon for each sheet and process with a kerf, `cut/kerf-coupon-<process>-<stock>.dxf`.
 * Boards are not among them: a board house cuts along the profile layer.
 *
 * Layers: ENGRAVE marks, BEND the middle of each bend, DRILL holes to drill (finished diameter), LEAD_IN run-ins, CUT_INNER cut-outs and the holes that the machine
 * cuts itself, ROUGH_CUT the line to saw on where the process leaves stock to file off, CUT_OUTER the outside (CUT_TABBED in the file with
 * bridges), NOTE words and a 100 mm check line. Outlines are finished sizes unless the process says that cut files carry the tool path.
 *
 * @throws Error when a hole or cut-out is too narrow for a compensated kerf, or the assembly holds a line twice.
 */
export function emitDxf(assembly: Assembly): EmittedFile[] {
  const { design } = assembly;
  const plates = assembly.parts.filter((part) => part.form === 'plate');
  return [
    ...plates.flatMap((part) => plateFiles(part, design)),
    ...nest(assembly).sheets.map((sheet): EmittedFile => {
      const path = `cut/sheet-${sheet.sheet.id}-${sheet.number}.dxf`;
      return { path, kind: 'sheet-dxf', part: undefined, bytes: writeDxf(sheetDrawing(sheet, design)) };
    }),
    ...kerfCoupons(assembly).map((coupon): EmittedFile => {
      const path = `cut/kerf-coupon-${coupon.process.id}-${coupon.sheet.id}.dxf`;
      return { path, kind: 'cut-dxf', part: undefined, bytes: writeDxf(couponDrawing(coupon, design)) };
    }),
  ];
}

function plateFiles(part: PlatePart, design: Assembly['design']): readonly EmittedFile[] {
  const file = (path: string, drawing: DxfDrawing): EmittedFile => ({
    path,
    kind: 'cut-dxf',
    part: part.id,
    bytes: writeDxf(drawing),
  });
  const tabbed = tabbedDrawing(part, design);
  return [
    file(`cut/${part.id}.dxf`, plateDrawing(part, design)),
    ...(tabbed === undefined ? [] : [file(`cut/${part.id}-tabbed.dxf`, tabbed)]),
  ];
}
