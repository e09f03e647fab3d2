/** A point in a part's own plane, in mm: x right, y up. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** From the current point on. A `ccw` arc turns left (counter-clockwise seen with y up). */
export type Segment =
  | { readonly kind: 'line'; readonly to: Point }
  | { readonly kind: 'arc'; readonly to: Point; readonly centre: Point; readonly sense: 'ccw' | 'cw' };

/** A closed curve: a circle, or segments that end exactly where they start. */
export type Contour =
  | { readonly kind: 'circle'; readonly centre: Point; readonly radiusMm: number }
  | { readonly kind: 'path'; readonly start: Point; readonly segments: readonly Segment[] };
