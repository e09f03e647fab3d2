import type { PatchCorners, PatchShape, PatchSlot } from '../design.ts';
import { problemAsDrawingName } from '../drawing/named-files.ts';
import { readDrawing } from '../drawing/read-drawing.ts';
import { cutForHand } from '../polarisation.ts';
import type { ReadFile } from '../schema/design-file.ts';
import type { Process } from '../stock/process.ts';
import type { Context } from './context.ts';

type FileLayer = ReadFile['layer'][number];
type FileRectangle = Extract<FileLayer, { shape: 'rectangle' }>;
type FileOutline = Extract<FileLayer, { shape: 'outline' }>;

/** Where a shape stands in the file, and what makes it. */
export interface ShapePlace {
  readonly index: number;
  readonly process: Process;
}

/** The shape of a layer, or undefined after reporting what is wrong. */
export function resolveShape(context: Context, layer: FileLayer, place: ShapePlace): PatchShape | undefined {
  switch (layer.shape) {
    case 'circle':
      return { kind: 'circle', diameterMm: layer.diameter };
    case 'ring':
      return { kind: 'ring', outerMm: layer.outer_diameter, innerMm: layer.inner_diameter };
    case 'triangle':
      return { kind: 'triangle', sideMm: layer.side };
    case 'outline':
      return drawn(context, layer, place.index);
    case 'rectangle':
      return rectangle(context, layer, place);
  }
}

function rectangle(context: Context, layer: FileRectangle, { index, process }: ShapePlace): PatchShape | undefined {
  const corners = cornersOf(context, layer, index);
  if (corners === 'wrong') return undefined;
  const slot = layer.slot && slotOf(layer.slot, process);
  return { kind: 'rectangle', lengthMm: layer.length, widthMm: layer.width, corners, slot };
}

function cornersOf(context: Context, layer: FileRectangle, index: number): PatchCorners | 'wrong' | undefined {
  const { corner_radius: radius = 0, cut_corners: cut } = layer;
  if (cut === undefined) return radius > 0 ? { kind: 'round', radiusMm: radius } : undefined;
  if (radius > 0) {
    const words = { allowed: 'goes with cut corners, which have no radius', remedy: 'leave one of them out' };
    context.report.error({ code: 'too-many-fields', path: ['layer', index, 'corner_radius'], ...words });
    return 'wrong';
  }
  if (cut.corners === 'all') return { kind: 'cut', which: 'all', sizeMm: cut.size };
  const wanted = context.file.targets?.polarisation;
  const hand = cut.hand ?? (wanted === 'left-hand' || wanted === 'right-hand' ? wanted : undefined);
  if (hand !== undefined) return { kind: 'cut', which: cutForHand(hand), sizeMm: cut.size };
  context.report.error({
    code: 'missing-field',
    path: ['layer', index, 'cut_corners'],
    allowed: 'does not say which two opposite corners to cut',
    remedy: 'add hand = "right-hand" or "left-hand", or write one of them as targets.polarisation',
  });
  return 'wrong';
}

/** A relief in the corners needs no radius there; otherwise they get what the cutter leaves, at most a half round end. */
function slotOf(slot: NonNullable<FileRectangle['slot']>, process: Process): PatchSlot {
  const { width: slotMm, edge = 'near' } = slot;
  const usual = process.insideCorners === 'dog-bone' ? 0 : Math.min(process.smallestRadiusMm, slotMm / 2);
  const endRadiusMm = slot.end_radius ?? usual;
  if (slot.kind === 'e') {
    return { kind: 'e', edge, lengthMm: slot.length, slotMm, spacingMm: slot.spacing, endRadiusMm };
  }
  return { kind: 'u', edge, armMm: slot.arm, baseMm: slot.base, slotMm, offsetMm: slot.offset, endRadiusMm };
}

function drawn(context: Context, layer: FileOutline, index: number): PatchShape | undefined {
  const { file, turn = 0, centre = 'centroid', units } = layer;
  const path = ['layer', index, 'file'];
  const value = JSON.stringify(file);
  const bad = problemAsDrawingName(file);
  if (bad !== undefined) {
    const remedy = 'put the drawing beside the design and name it, such as "wing.dxf"';
    return context.report.error({ code: 'bad-file-name', path, value, allowed: bad, remedy });
  }
  const text = context.files.get(file);
  if (text === undefined) {
    const remedy = 'give the drawing together with the design';
    return context.report.error({ code: 'file-not-given', path, value, allowed: 'was not given', remedy });
  }
  const read = readDrawing({ name: file, text, units });
  if (!read.ok) return context.report.error({ path, value, ...read.problem });
  return { kind: 'outline', file, loops: read.loops, turnDeg: turn, centre };
}
