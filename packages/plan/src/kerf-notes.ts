import { type Assembly, kerfCoupons } from '@sheetwave/geometry';
import { numberText } from './number-text.ts';

/** How to find the kerf from a coupon, once for each sheet and process that has one. `kerfFromReadings` is the same arithmetic. */
export function kerfNotes(assembly: Assembly): string[] {
  return kerfCoupons(assembly).map(({ sheet, process, widthsMm }) => {
    const file = `cut/kerf-coupon-${process.id}-${sheet.id}.dxf`;
    const nominal = widthsMm[1] ?? 10;
    const [slot, tongue] = [nominal + process.kerfMm, nominal - process.kerfMm];
    return `The kerf of ${numberText(process.kerfMm)} mm (${process.label}, ${sheet.label}) is assumed. Have ${file} cut first, exactly on its lines, and measure a slot and the step of the tongue of the same width: kerf = (slot - tongue) / 2; the ${numberText(nominal)} mm pair should read ${numberText(slot)} and ${numberText(tongue)} mm. Write what you find as kerf under [process.${process.id}].`;
  });
}
