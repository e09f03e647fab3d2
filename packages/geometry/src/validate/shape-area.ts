import type { PatchCorners, PatchShape, PatchSlot } from '@sheetwave/design';

/** What a round corner takes off a square one: (1 - π/4) r². */
const cornerLoss = (radiusMm: number): number => (1 - Math.PI / 4) * radiusMm ** 2;
const disc = (diameterMm: number): number => (Math.PI * diameterMm ** 2) / 4;

/**
 * Area inside the outside of a patch by its sizes, mm², without looking at its contour; undefined for a drawn outline, which has no sizes.
 * Rectangle less its corners and notches, πd²/4, √3/4 s².
 */
export function outsideArea(shape: PatchShape): number | undefined {
  switch (shape.kind) {
    case 'rectangle':
      return shape.lengthMm * shape.widthMm - cornersArea(shape.corners) - notchesArea(shape.slot);
    case 'circle':
      return disc(shape.diameterMm);
    case 'ring':
      return disc(shape.outerMm);
    case 'triangle':
      return (Math.sqrt(3) / 4) * shape.sideMm ** 2;
    case 'outline':
      return undefined;
  }
}

/** Area of the cut-outs inside a patch by its sizes, mm². */
export function cutoutsArea(shape: PatchShape): number | undefined {
  switch (shape.kind) {
    case 'rectangle':
      return uArea(shape.slot);
    case 'ring':
      return disc(shape.innerMm);
    case 'circle':
    case 'triangle':
      return 0;
    case 'outline':
      return undefined;
  }
}

/** Area of the board that carries a patch with a border on every side, mm². */
export function boardArea(shape: PatchShape, borderMm: number): number | undefined {
  switch (shape.kind) {
    case 'rectangle':
      return (shape.lengthMm + 2 * borderMm) * (shape.widthMm + 2 * borderMm);
    case 'circle':
      return disc(shape.diameterMm + 2 * borderMm);
    case 'ring':
      return disc(shape.outerMm + 2 * borderMm);
    case 'triangle':
      // The inscribed circle, of radius s / 2√3, grows by the border.
      return (Math.sqrt(3) / 4) * (shape.sideMm + 2 * Math.sqrt(3) * borderMm) ** 2;
    case 'outline':
      return undefined;
  }
}

/** Four rounded corners, or triangles of half the square of the cut. */
function cornersArea(corners: PatchCorners | undefined): number {
  if (corners === undefined) return 0;
  if (corners.kind === 'round') return 4 * cornerLoss(corners.radiusMm);
  return ((corners.which === 'all' ? 4 : 2) * corners.sizeMm ** 2) / 2;
}

/** Two notches, each with two rounded corners at its end. */
function notchesArea(slot: PatchSlot | undefined): number {
  if (slot?.kind !== 'e') return 0;
  return 2 * (slot.lengthMm * slot.slotMm - 2 * cornerLoss(slot.endRadiusMm));
}

/** Base and two arms, less the six corners that a cutter rounds. */
function uArea(slot: PatchSlot | undefined): number {
  if (slot?.kind !== 'u') return 0;
  const { baseMm, armMm, slotMm, endRadiusMm } = slot;
  return baseMm * slotMm + 2 * (armMm - slotMm) * slotMm - 6 * cornerLoss(endRadiusMm);
}
