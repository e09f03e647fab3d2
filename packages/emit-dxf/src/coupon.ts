import {
  type Assembly,
  bounds,
  boundsOfPoints,
  type KerfCoupon,
  type Outline,
  type PlatePart,
} from '@sheetwave/geometry';
import { cutContours, cutEntities, cutNotes } from './cut-contours.ts';
import type { DxfDrawing, DxfEntity } from './drawing.ts';
import { noteBlock, oneLine, revisionNote, UNIT_NOTE } from './notes.ts';

/** Between the two pieces, and from them to the notes. */
const GAP_MM = 10;
const TEXT_MM = 2.5;

/**
 * The two pieces of a kerf coupon, their lines as drawn: whoever cuts it must switch off the making up for kerf. The notes say how to work out the kerf,
 * as `kerfFromReadings` does.
 */
export function couponDrawing(coupon: KerfCoupon, design: Assembly['design']): DxfDrawing {
  const [plate, tongue] = [cutContours(partOf(coupon, coupon.plate)), cutContours(partOf(coupon, coupon.tongue))];
  const [platesBox, tongueBox] = [bounds(plate.outer), bounds(tongue.outer)];
  const below = platesBox.minY - GAP_MM - tongueBox.maxY;
  const lowest = below + tongueBox.minY;
  const note = noteBlock(couponNotes(coupon, design, cutNotes(plate, plainProcess(coupon))), {
    x: platesBox.minX,
    y: lowest - GAP_MM,
  });
  return {
    entities: [
      ...cutEntities(plate),
      ...cutEntities(tongue, { at: { x: 0, y: below, z: 0 }, turnDeg: 0 }),
      ...widthNames(coupon),
      ...note.entities,
    ],
    extents: boundsOfPoints([
      { x: Math.max(platesBox.maxX, tongueBox.maxX, note.widthMm), y: platesBox.maxY },
      { x: platesBox.minX, y: note.lowestY },
    ]),
  };
}

/** The width under each slot, on the web below it. */
function widthNames({ plate, widthsMm }: KerfCoupon): readonly DxfEntity[] {
  return plate.cutouts.map((slot, i): DxfEntity => {
    const box = bounds(slot);
    const at = { x: (box.minX + box.maxX) / 2, y: box.minY - TEXT_MM - 1 };
    return { kind: 'text', layer: 'NOTE', at, align: 'middle', heightMm: TEXT_MM, text: String(widthsMm[i] ?? '') };
  });
}

function couponNotes(
  { sheet, process, widthsMm }: KerfCoupon,
  design: Assembly['design'],
  corners: readonly string[],
): readonly string[] {
  const widths = `${widthsMm.slice(0, -1).join(', ')} and ${widthsMm.at(-1) ?? ''} mm`;
  return [
    `${design.name}: kerf test coupon`,
    revisionNote(design),
    `material: ${sheet.label}`,
    `process: ${process.label}`,
    'cut exactly on the lines: kerf compensation off',
    ...corners,
    `slots and steps of the tongue: ${widths}`,
    'measure each slot S and the step T of the same width',
    'kerf = (S - T) / 2; take the mean of the three pairs',
    `write it as kerf under [process.${process.id}] in the design file`,
    UNIT_NOTE,
  ].map(oneLine);
}

/** No kerf in the path, nothing to file off, no run-ins; and no reliefs, which would widen the slots near their ends. */
const plainProcess = ({ process }: KerfCoupon): PlatePart['process'] => ({
  ...process,
  compensateKerf: false,
  insideCorners: process.insideCorners === 'as-drawn' ? 'as-drawn' : 'round',
  allowanceMm: 0,
  leadInMm: 0,
});

function partOf(coupon: KerfCoupon, outline: Outline): PlatePart {
  return {
    form: 'plate',
    role: 'strip',
    id: 'kerf-coupon',
    name: 'kerf test coupon',
    quantity: 1,
    sheet: coupon.sheet,
    outline,
    marks: [],
    process: plainProcess(coupon),
  };
}
