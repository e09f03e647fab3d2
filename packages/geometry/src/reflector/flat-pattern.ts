import type { Fold, Side } from '@sheetwave/design';
import type { Contour, Point, Segment } from '../outline.ts';
import { bendAllowanceMm, bendDeductionMm, foldBend, setbackMm } from './bend.ts';

/** A face whose edges may be folded; its centre is (0, 0). Lengths in mm. */
export interface FoldedFace {
  /** Over the outside of the folds. */
  readonly widthMm: number;
  readonly heightMm: number;
  readonly cornerRadiusMm: number;
  readonly thicknessMm: number;
  /** Radius of the relief where two folds meet. */
  readonly reliefMm: number;
  readonly fold: Fold | undefined;
}

/** Sizes of a folded edge in the flat sheet, from the edge of the face outward where they say so. */
export interface FoldSizes {
  /** From the edge of the face inward to where the bend begins. */
  readonly setbackMm: number;
  /** Width of the strip that becomes the bend. */
  readonly allowanceMm: number;
  readonly deductionMm: number;
  /** How far the flat sheet reaches beyond the edge of the face: height less deduction. */
  readonly beyondMm: number;
  /** Flat part of the folded edge, beyond the bend. */
  readonly flatMm: number;
  /** From the edge of the face to the middle of the bend; negative is inside the face. */
  readonly bendLineMm: number;
}

export function foldSizes(fold: Fold, thicknessMm: number): FoldSizes {
  const bend = foldBend(fold, thicknessMm);
  const [setback, allowance, deduction] = [setbackMm(bend), bendAllowanceMm(bend), bendDeductionMm(bend)];
  return {
    setbackMm: setback,
    allowanceMm: allowance,
    deductionMm: deduction,
    beyondMm: fold.heightMm - deduction,
    flatMm: fold.heightMm - setback,
    bendLineMm: allowance / 2 - setback,
  };
}

interface Corner {
  readonly at: Point;
  readonly radiusMm: number;
  /** A relief turns round its own corner; other corners are rounded off. */
  readonly relief: boolean;
}

/** Which sides meet in each corner, from the lower right one counter-clockwise: the side that is come along, then the next. */
const CORNERS: readonly (readonly [Side, Side])[] = [
  ['bottom', 'right'],
  ['right', 'top'],
  ['top', 'left'],
  ['left', 'bottom'],
];

const OUTWARD: Readonly<Record<Side, Point>> = {
  left: { x: -1, y: 0 },
  right: { x: 1, y: 0 },
  top: { x: 0, y: 1 },
  bottom: { x: 0, y: -1 },
};

/**
 * The outline to cut before bending: the face with each folded edge laid flat. Where two folded edges meet, both stop where the
 * other's bend begins, and a round relief keeps the corner from tearing. Without a fold it is the face itself.
 * Throws when a folded edge leaves no flat part: the bend would not fit.
 */
export function flatPattern(face: FoldedFace): Contour {
  const sizes = face.fold && foldSizes(face.fold, face.thicknessMm);
  if (sizes && sizes.flatMm <= 0) throw new Error(`a folded edge of ${face.fold?.heightMm} mm has no flat part`);
  return pathOf(CORNERS.flatMap((sides) => cornersAt(face, sizes, sides)));
}

/** The face as it is seen from in front after bending: sharp beside a fold, and open in the corner between two. */
export function faceContour(face: FoldedFace): Contour {
  const folded = new Set(face.fold?.sides ?? []);
  const inMm = face.fold ? -foldSizes(face.fold, face.thicknessMm).setbackMm : 0;
  const corner = (at: Point, radiusMm = 0): Corner => ({ at, radiusMm, relief: false });
  return pathOf(
    CORNERS.flatMap(([a, b]) => {
      const place = (out: Partial<Record<Side, number>>): Point => cornerPoint(face, [a, b], out);
      if (folded.has(a) && folded.has(b))
        return [{ [b]: inMm }, { [a]: inMm, [b]: inMm }, { [a]: inMm }].map((out) => corner(place(out)));
      return [corner(place({}), folded.has(a) || folded.has(b) ? 0 : face.cornerRadiusMm)];
    }),
  );
}

/** Area of the flat pattern, worked out from its sizes and not from its contour, mm². */
export function flatPatternAreaMm2(face: FoldedFace): number {
  const { widthMm, heightMm, fold, cornerRadiusMm: r } = face;
  const offCorner = (radius: number): number => (1 - Math.PI / 4) * radius * radius;
  if (!fold) return widthMm * heightMm - 4 * offCorner(r);
  const sizes = foldSizes(fold, face.thicknessMm);
  const { beyondMm, setbackMm: d } = sizes;
  const strips = fold.sides.reduce(
    (sum, side) => sum + beyondMm * (side === 'left' || side === 'right' ? heightMm : widthMm),
    0,
  );
  const rounded = offCorner(edgeRadiusMm(face, sizes));
  const lost = CORNERS.map((sides) => {
    const folds = sides.filter((side) => fold.sides.includes(side)).length;
    if (folds === 0) return offCorner(r);
    if (folds === 1) return rounded;
    return d * d + 2 * d * beyondMm + 2 * rounded + 0.75 * Math.PI * face.reliefMm ** 2;
  });
  return widthMm * heightMm + strips - lost.reduce((sum, one) => sum + one, 0);
}

function cornersAt(face: FoldedFace, sizes: FoldSizes | undefined, [a, b]: readonly [Side, Side]): Corner[] {
  const has = (side: Side): boolean => face.fold?.sides.includes(side) ?? false;
  const place = (out: Partial<Record<Side, number>>): Point => cornerPoint(face, [a, b], out);
  if (!sizes || (!has(a) && !has(b)))
    return [{ at: place({ [a]: 0, [b]: 0 }), radiusMm: face.cornerRadiusMm, relief: false }];
  const { beyondMm, setbackMm: d } = sizes;
  const radiusMm = edgeRadiusMm(face, sizes);
  if (!has(a) || !has(b)) {
    return [{ at: place({ [a]: has(a) ? beyondMm : 0, [b]: has(b) ? beyondMm : 0 }), radiusMm, relief: false }];
  }
  return [
    { at: place({ [a]: beyondMm, [b]: -d }), radiusMm, relief: false },
    { at: place({ [a]: -d, [b]: -d }), radiusMm: face.reliefMm, relief: true },
    { at: place({ [a]: -d, [b]: beyondMm }), radiusMm, relief: false },
  ];
}

/** The corners of a folded edge are rounded as far as its flat part and the relief leave room. */
function edgeRadiusMm(face: FoldedFace, { flatMm }: FoldSizes): number {
  return Math.min(face.cornerRadiusMm, Math.max(0, flatMm - face.reliefMm));
}

/** The corner between two sides, each moved outward by what is given. */
function cornerPoint(face: FoldedFace, sides: readonly Side[], out: Partial<Record<Side, number>>): Point {
  const along = (axis: 'x' | 'y', half: number): number =>
    sides.reduce((sum, side) => sum + OUTWARD[side][axis] * (half + (out[side] ?? 0)), 0);
  return { x: along('x', face.widthMm / 2), y: along('y', face.heightMm / 2) };
}

function pathOf(corners: readonly Corner[]): Contour {
  const points: Segment[] = [];
  corners.forEach((corner, index) => {
    const before = corners[(index + corners.length - 1) % corners.length] ?? corner;
    const after = corners[(index + 1) % corners.length] ?? corner;
    points.push(...cornerSegments(corner, unit(before.at, corner.at), unit(corner.at, after.at)));
  });
  const start = points.at(-1)?.to ?? { x: 0, y: 0 };
  const kept: Segment[] = [];
  let here = start;
  for (const segment of points) {
    if (Math.hypot(segment.to.x - here.x, segment.to.y - here.y) <= 1e-9) continue;
    kept.push(segment);
    here = segment.to;
  }
  return { kind: 'path', start, segments: kept };
}

/** A line to the corner, and the arc that rounds it off or goes round its relief. */
function cornerSegments({ at, radiusMm, relief }: Corner, into: Point, out: Point): Segment[] {
  if (radiusMm === 0) return [{ kind: 'line', to: at }];
  const from = { x: at.x - into.x * radiusMm, y: at.y - into.y * radiusMm };
  const to = { x: at.x + out.x * radiusMm, y: at.y + out.y * radiusMm };
  const centre = relief ? at : { x: from.x + out.x * radiusMm, y: from.y + out.y * radiusMm };
  return [
    { kind: 'line', to: from },
    { kind: 'arc', to, centre, sense: relief ? 'cw' : 'ccw' },
  ];
}

function unit(from: Point, to: Point): Point {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
}
