import type { Bounds, Contour, Point } from '@sheetwave/geometry';
import type { Anchor } from './text-size.ts';

/** How something is drawn; what is left out is inherited from the group. Widths and dashes in mm of the page. */
export interface Style {
  readonly stroke?: string;
  readonly width?: number;
  readonly fill?: string;
  readonly opacity?: number;
  readonly fillOpacity?: number;
  readonly dash?: readonly number[];
  readonly cap?: 'butt' | 'round';
  readonly join?: 'miter' | 'round';
}

export interface TextStyle {
  readonly sizeMm: number;
  readonly anchor?: Anchor;
  readonly bold?: boolean;
  readonly colour?: string;
  /** False turns the line to read from below upwards. */
  readonly upright?: boolean;
  /** A rim in this colour around the letters, where text lies over lines. */
  readonly halo?: string;
  readonly id?: string;
}

/** Draws into one group of a page. Points are drawing coordinates: mm, x right, y up. */
export interface Pen {
  group(id: string, style?: Style): Pen;
  line(from: Point, to: Point, style?: Style): void;
  /** Many separate lines as one path. */
  lines(pairs: readonly (readonly [Point, Point])[], style?: Style & { readonly id?: string }): void;
  polyline(points: readonly Point[], style?: Style & { readonly id?: string }): void;
  polygon(points: readonly Point[], style?: Style & { readonly id?: string }): void;
  /** Polygons painted together by the even-odd rule: a polygon within another is a hole. */
  polygons(rings: readonly (readonly Point[])[], style?: Style & { readonly id?: string }): void;
  circle(centre: Point, radiusMm: number, style?: Style & { readonly id?: string }): void;
  box(box: Bounds, style?: Style & { readonly id?: string }): void;
  /** Closed contours painted together by the even-odd rule, arcs as real arcs; a lone circle as `<circle>`. */
  contours(contours: readonly Contour[], style?: Style & { readonly id?: string }): void;
  text(at: Point, text: string, style: TextStyle): void;
}
