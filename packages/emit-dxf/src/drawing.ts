import type { Point } from '@sheetwave/geometry';
import type { LayerName } from './layers.ts';

/** A corner of a closed polyline. `bulge` belongs to the segment that starts here: tan(θ/4), 0 straight, positive to the left. */
export interface Vertex extends Point {
  readonly bulge: number;
}

/** What the writer can put into a file; lengths in mm. */
export type DxfEntity =
  | { readonly kind: 'loop'; readonly layer: LayerName; readonly vertices: readonly Vertex[] }
  /** A line of arcs and straights that is not closed; the bulge of its last corner is 0. */
  | { readonly kind: 'open'; readonly layer: LayerName; readonly vertices: readonly Vertex[] }
  | { readonly kind: 'circle'; readonly layer: LayerName; readonly centre: Point; readonly radiusMm: number }
  | { readonly kind: 'line'; readonly layer: LayerName; readonly from: Point; readonly to: Point }
  | {
      readonly kind: 'text';
      readonly layer: LayerName;
      /** On the baseline: its left end, or its middle. */
      readonly at: Point;
      readonly align: 'left' | 'middle';
      readonly heightMm: number;
      readonly text: string;
    };

export interface DxfDrawing {
  readonly entities: readonly DxfEntity[];
  /** Box that a viewer shows at first. */
  readonly extents: { readonly minX: number; readonly minY: number; readonly maxX: number; readonly maxY: number };
}
