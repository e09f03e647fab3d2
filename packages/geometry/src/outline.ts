import type { Contour, Point, Segment } from '@sheetwave/design';

export type { Contour, Point, Segment };

/** Why a hole is there; what a drill map prints. */
export type HolePurpose =
  | 'fixing'
  | 'feed'
  | 'coax'
  | 'mounting'
  | 'connector-post'
  | 'connector-pin'
  | 'connector-flange'
  | 'clamp'
  | 'drain'
  | 'gland';

export interface Hole {
  readonly purpose: HolePurpose;
  readonly centre: Point;
  /** Finished diameter. */
  readonly diameterMm: number;
  /** Metal-lined hole of a board; always false in sheet. */
  readonly plated: boolean;
}

/** Outside counter-clockwise, cut-outs clockwise; holes are round and drilled, cut-outs are cut. */
export interface Outline {
  readonly outer: Contour;
  readonly cutouts: readonly Contour[];
  readonly holes: readonly Hole[];
}

/** Where to scribe or engrave; never cut. */
export type Mark =
  | { readonly kind: 'line'; readonly purpose: MarkPurpose; readonly from: Point; readonly to: Point }
  | { readonly kind: 'circle'; readonly purpose: MarkPurpose; readonly centre: Point; readonly diameterMm: number }
  | {
      readonly kind: 'text';
      readonly purpose: MarkPurpose;
      readonly at: Point;
      readonly text: string;
      readonly heightMm: number;
    };

/**
 * `feed-edge` tells which edge the feed is nearest; `solder-land` is to be tinned; `patch` is where an element sits; `bend` is the
 * middle of a bend.
 */
export type MarkPurpose = 'centre' | 'feed-edge' | 'solder-land' | 'patch' | 'harness' | 'label' | 'bend';
