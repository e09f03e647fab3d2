import type { PatchCorners, PatchShape, PatchSlot } from '@sheetwave/design';
import { rectangleContour } from '../contours.ts';
import type { Contour, Point } from '../outline.ts';
import { reverseContour } from '../transform.ts';
import { type Corner, roundedPolygon } from './rounded-polygon.ts';

export type RectanglePatch = Extract<PatchShape, { kind: 'rectangle' }>;

/** An inset feed's opening in the fed edge: `halfMm` to both sides of the centre line. */
export interface Inset {
  readonly halfMm: number;
  readonly depthMm: number;
}

/** The outside of a rectangular patch with its corners and notches, counter-clockwise, centre at (0, 0). */
export function rectangleOuter(shape: RectanglePatch, inset?: Inset): Contour {
  const notched = shape.slot?.kind === 'e' || inset !== undefined;
  if (shape.corners === undefined && !notched)
    return rectangleContour({ centre: { x: 0, y: 0 }, widthMm: shape.widthMm, heightMm: shape.lengthMm });
  const [x, y] = [shape.widthMm / 2, shape.lengthMm / 2];
  const { corners, slot } = shape;
  const notches = slot?.kind === 'e' ? slot : undefined;
  return roundedPolygon([
    ...corner(corners, 'rising', [-x, -y]),
    ...(notches?.edge === 'near' ? eNotches(notches, y) : []),
    ...(inset ? insetNotch(inset, y) : []),
    ...corner(corners, 'falling', [x, -y]),
    ...corner(corners, 'rising', [x, y]),
    ...(notches?.edge === 'far' ? turnedHalf(eNotches(notches, y)) : []),
    ...corner(corners, 'falling', [-x, y]),
  ]);
}

/** The slot inside a rectangular patch, clockwise; none for a plain one and for notches. */
export function rectangleCutouts(shape: RectanglePatch): readonly Contour[] {
  const { slot } = shape;
  if (slot?.kind !== 'u') return [];
  const near = uCorners(slot, shape.lengthMm / 2);
  return [reverseContour(roundedPolygon(slot.edge === 'near' ? near : turnedHalf(near)))];
}

const sharp = (x: number, y: number): Corner => ({ x, y, radiusMm: 0 });

/** One corner of the rectangle, counter-clockwise; cut ones are two. */
function corner(
  corners: PatchCorners | undefined,
  diagonal: 'rising' | 'falling',
  [x, y]: readonly [number, number],
): readonly Corner[] {
  if (corners?.kind === 'round') return [{ x, y, radiusMm: corners.radiusMm }];
  if (corners === undefined || (corners.which !== 'all' && corners.which !== diagonal)) return [sharp(x, y)];
  const [inX, inY] = [x - Math.sign(x) * corners.sizeMm, y - Math.sign(y) * corners.sizeMm];
  // Going round to the left, a corner is entered along the side of x where x and y have one sign, else along that of y.
  return x * y > 0 ? [sharp(x, inY), sharp(inX, y)] : [sharp(inX, y), sharp(x, inY)];
}

function insetNotch({ halfMm, depthMm }: Inset, halfLength: number): readonly Corner[] {
  const [low, deep] = [-halfLength, -halfLength + depthMm];
  return [sharp(-halfMm, low), sharp(-halfMm, deep), sharp(halfMm, deep), sharp(halfMm, low)];
}

/** Two notches in the fed edge, from left to right. */
function eNotches(slot: PatchSlot & { kind: 'e' }, halfLength: number): readonly Corner[] {
  const [low, deep, radiusMm] = [-halfLength, -halfLength + slot.lengthMm, slot.endRadiusMm];
  return [-slot.spacingMm / 2, slot.spacingMm / 2].flatMap((middle) => {
    const [left, right] = [middle - slot.slotMm / 2, middle + slot.slotMm / 2];
    return [sharp(left, low), { x: left, y: deep, radiusMm }, { x: right, y: deep, radiusMm }, sharp(right, low)];
  });
}

/** A U with its base along the fed edge, counter-clockwise. The two corners of the tongue stay sharp: any cutter reaches round them. */
function uCorners(slot: PatchSlot & { kind: 'u' }, halfLength: number): readonly Corner[] {
  const radiusMm = slot.endRadiusMm;
  const low = -halfLength + slot.offsetMm;
  const high = low + slot.armMm;
  const [out, inside] = [slot.baseMm / 2, slot.baseMm / 2 - slot.slotMm];
  const round = (x: number, y: number): Corner => ({ x, y, radiusMm });
  return [
    round(-out, low),
    round(out, low),
    round(out, high),
    round(inside, high),
    sharp(inside, low + slot.slotMm),
    sharp(-inside, low + slot.slotMm),
    round(-inside, high),
    round(-out, high),
  ];
}

/** Turned by half a turn, which moves what lies at the fed edge to the far one; these shapes are symmetrical about x = 0. */
function turnedHalf(corners: readonly Corner[]): readonly Corner[] {
  const back = ({ x, y }: Point): Point => ({ x: 0 - x, y: 0 - y });
  return corners.map(({ radiusMm, ...at }) => ({ ...back(at), radiusMm }));
}
