import type { Design, Layer, PatchCorners, PatchShape, PatchSlot } from '../design.ts';
import type { KeyPath } from '../path.ts';
import { formatLength } from '../quantity.ts';
import type { Report } from '../report.ts';

type Rectangle = Extract<PatchShape, { kind: 'rectangle' }>;

/** Sizes that add up to the same are the same, whatever the last binary digit says. */
const ROUNDING_MM = 1e-9;

interface Place {
  readonly path: KeyPath;
  readonly report: Report;
}

function outOfRange({ path, report }: Place, mm: number, words: { allowed: string; remedy: string }): void {
  report.error({ code: 'out-of-range', path, value: formatLength(mm), ...words });
}

/** Corners must leave something of each side. */
function checkCorners(shape: Rectangle, corners: PatchCorners, place: Place): void {
  const half = Math.min(shape.lengthMm, shape.widthMm) / 2;
  const size = corners.kind === 'round' ? corners.radiusMm : corners.sizeMm;
  const key = corners.kind === 'round' ? ['corner_radius'] : ['cut_corners', 'size'];
  if (corners.kind === 'round' ? size <= half : size < half) return;
  const allowed = 'is more than half of the shorter side leaves room for';
  outOfRange({ ...place, path: [...place.path, ...key] }, size, {
    allowed,
    remedy: `give less than ${formatLength(half)}`,
  });
}

function checkEnds(slot: PatchSlot, place: Place): void {
  if (slot.endRadiusMm <= slot.slotMm / 2) return;
  const words = {
    allowed: 'is more than half the width of the slot',
    remedy: `give at most ${formatLength(slot.slotMm / 2)}`,
  };
  outOfRange({ ...place, path: [...place.path, 'end_radius'] }, slot.endRadiusMm, words);
}

/** For what is too short for the corners at the end of a slot. */
function endsWords(slot: PatchSlot, leastMm: number): { allowed: string; remedy: string } {
  return {
    allowed: `is too short for the end of the slot, which is rounded to ${formatLength(slot.endRadiusMm)}`,
    remedy: `give at least ${formatLength(leastMm)}, or a smaller end_radius`,
  };
}

/** The slot must be wider than what the tool takes away. */
function checkCutter(slot: PatchSlot, { process, build }: Layer, place: Place): void {
  if (build.kind !== 'sheet' || slot.slotMm > process.kerfMm) return;
  const words = {
    allowed: `is not wider than the cut, ${formatLength(process.kerfMm)} for a part ${process.label}`,
    remedy: 'make the slot wider, or choose a process with a narrower cut',
  };
  outOfRange({ ...place, path: [...place.path, 'width'] }, slot.slotMm, words);
}

function checkU(shape: Rectangle, slot: PatchSlot & { kind: 'u' }, place: Place): void {
  const at = (key: string): Place => ({ ...place, path: [...place.path, key] });
  if (slot.baseMm <= 2 * slot.slotMm) {
    const remedy = `give more than ${formatLength(2 * slot.slotMm)}`;
    outOfRange(at('base'), slot.baseMm, { allowed: 'leaves nothing between the arms', remedy });
  } else if (slot.baseMm >= shape.widthMm) {
    const remedy = `give less than ${formatLength(shape.widthMm)}`;
    outOfRange(at('base'), slot.baseMm, { allowed: 'is not narrower than the patch', remedy });
  }
  if (slot.armMm <= slot.slotMm) {
    const remedy = `give more than ${formatLength(slot.slotMm)}, the base included`;
    outOfRange(at('arm'), slot.armMm, { allowed: 'is no arm: it ends in the base', remedy });
  } else if (slot.armMm < slot.slotMm + slot.endRadiusMm - ROUNDING_MM) {
    outOfRange(at('arm'), slot.armMm, endsWords(slot, slot.slotMm + slot.endRadiusMm));
  } else if (slot.offsetMm + slot.armMm >= shape.lengthMm) {
    const most = formatLength(Math.max(0, shape.lengthMm - slot.offsetMm));
    outOfRange(at('arm'), slot.armMm, {
      allowed: 'reaches the edge of the patch',
      remedy: `give less than ${most}, or less offset`,
    });
  }
}

function checkE(shape: Rectangle, slot: PatchSlot & { kind: 'e' }, place: Place): void {
  const at = (key: string): Place => ({ ...place, path: [...place.path, key] });
  const corner = cornerAt(shape);
  if (slot.lengthMm >= shape.lengthMm) {
    const remedy = `give less than ${formatLength(shape.lengthMm)}`;
    outOfRange(at('length'), slot.lengthMm, { allowed: 'cuts the patch apart', remedy });
  } else if (slot.lengthMm < slot.endRadiusMm - ROUNDING_MM) {
    outOfRange(at('length'), slot.lengthMm, endsWords(slot, slot.endRadiusMm));
  }
  if (slot.spacingMm <= slot.slotMm) {
    const remedy = `give more than ${formatLength(slot.slotMm)}`;
    outOfRange(at('spacing'), slot.spacingMm, { allowed: 'makes the two slots one', remedy });
  } else if (slot.spacingMm + slot.slotMm >= shape.widthMm - 2 * corner) {
    const remedy = `give less than ${formatLength(Math.max(0, shape.widthMm - 2 * corner - slot.slotMm))}`;
    outOfRange(at('spacing'), slot.spacingMm, {
      allowed: 'puts the slots over the sides or corners of the patch',
      remedy,
    });
  }
}

const cornerAt = ({ corners }: Rectangle): number => {
  if (corners === undefined) return 0;
  return corners.kind === 'round' ? corners.radiusMm : corners.sizeMm;
};

function checkRectangle(layer: Layer, shape: Rectangle, place: Place): void {
  if (shape.corners !== undefined) checkCorners(shape, shape.corners, place);
  const { slot } = shape;
  if (slot === undefined) return;
  const inSlot = { ...place, path: [...place.path, 'slot'] };
  checkEnds(slot, inSlot);
  checkCutter(slot, layer, inSlot);
  if (slot.kind === 'u') checkU(shape, slot, inSlot);
  else checkE(shape, slot, inSlot);
}

function checkRing(layer: Layer, ring: PatchShape & { kind: 'ring' }, place: Place): void {
  if (ring.innerMm >= ring.outerMm) {
    const remedy = `give less than ${formatLength(ring.outerMm)}`;
    outOfRange({ ...place, path: [...place.path, 'inner_diameter'] }, ring.innerMm, {
      allowed: 'leaves no ring',
      remedy,
    });
  }
  if (layer.build.kind !== 'sheet') return;
  place.report.error({
    code: 'no-metal-to-fix',
    path: [...place.path, 'sheet'],
    value: '"ring"',
    allowed: 'has no metal at its centre, where the spacer holds a patch of sheet',
    remedy: 'give the layer a board = "fr4-0.8-35" in place of the sheet, which carries the ring past its opening',
  });
}

/** Sizes of each patch's shape that need no geometry. */
export function checkShapes({ layers }: Design, report: Report): void {
  layers.forEach((layer, index) => {
    const place = { path: ['layer', index], report };
    if (layer.shape.kind === 'rectangle') checkRectangle(layer, layer.shape, place);
    if (layer.shape.kind === 'ring') checkRing(layer, layer.shape, place);
  });
}
