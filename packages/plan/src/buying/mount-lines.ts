import { type Design, poleClampFor } from '@sheetwave/design';
import { numberText } from '../number-text.ts';
import type { PartLine } from '../parts-list.ts';

/** What the design has holes for and no part: U-bolts of a pole clamp, screws of a flange, a cable gland. Their mass is not known. */
export function mountLines(design: Design): readonly PartLine[] {
  return [...clampLines(design), ...flangeLines(design), ...boxLines(design)];
}

function line(of: Pick<PartLine, 'id' | 'name' | 'quantity' | 'size'> & { readonly note?: string }): PartLine {
  return { stock: '', label: of.name, process: 'bought', massG: 0, files: [], note: '', ...of };
}

function clampLines({ reflector: { clamp } }: Design): readonly PartLine[] {
  if (clamp === undefined) return [];
  const thread = poleClampFor(clamp.poleMm)?.thread ?? 'its';
  const size = `pole ${numberText(clamp.poleMm)} mm, ${numberText(clamp.spacingMm)} mm between the legs`;
  return [
    line({
      id: 'u-bolt',
      name: 'U-bolt',
      quantity: 2,
      size,
      note: 'Stainless or galvanised; mass not counted. Measure yours: trade sizes differ.',
    }),
    line({
      id: 'u-bolt-nut',
      name: `${thread} nut for the U-bolts`,
      quantity: 8,
      size: `${numberText(clamp.acrossMm)} mm across flats`,
      note: 'Two on each leg: one behind the sheet, one in front.',
    }),
    line({
      id: 'u-bolt-washer',
      name: `${thread} washer for the U-bolts`,
      quantity: 8,
      size: '',
      note: 'Large ones, on both sides of the sheet.',
    }),
  ];
}

function flangeLines({ coax: { connector } }: Design): readonly PartLine[] {
  const holes = connector?.panel?.holes ?? [];
  const [first] = holes;
  if (first === undefined) return [];
  return [
    line({
      id: 'flange-screw',
      name: 'screw with nut for the connector flange',
      quantity: holes.length,
      size: `through ${numberText(first[2])} mm holes`,
      note: 'Stainless; mass not counted.',
    }),
  ];
}

function boxLines({ box }: Design): readonly PartLine[] {
  if (box?.glandMm === undefined) return [];
  return [
    line({ id: 'cable-gland', name: 'cable gland', quantity: 1, size: `for a hole of ${numberText(box.glandMm)} mm` }),
  ];
}
