import type { Style } from '@sheetwave/drawings';
import type { Marker } from './marker.ts';

/** Inks of the diagrams. Curves differ by dash, width and marker as well, so that a print in black and white can be read. */
export const INK = '#1d2433';
export const QUIET = '#5b6270';
export const GRID = '#dfe2e6';
export const PAPER = '#ffffff';
/** The band that is asked for, and what must not be entered within it. */
export const WANTED = '#e9efe4';
export const UNWANTED = '#d9cfc7';

export const TEXT_MM = 2.5;
export const SMALL_MM = 2.2;
export const TITLE_MM = 3.4;

/** How a curve is drawn. */
export interface CurveStyle {
  readonly stroke: string;
  readonly width: number;
  readonly dash?: readonly number[];
  readonly marker?: Marker;
}

/** Named looks; what a curve shows chooses among them. */
const LOOKS = {
  full: { stroke: '#1f4e79', width: 0.55 },
  dashed: { stroke: '#6b6b6b', width: 0.4, dash: [2, 1.1] },
  ringed: { stroke: '#a33b20', width: 0.3, marker: 'ring' },
  dotted: { stroke: '#2e6b4f', width: 0.5, dash: [0.5, 0.9] },
  squared: { stroke: '#5a3d7a', width: 0.3, marker: 'square' },
  broken: { stroke: '#8a6d1f', width: 0.45, dash: [3.2, 0.9, 0.6, 0.9] },
  diamonds: { stroke: '#20707a', width: 0.3, marker: 'diamond' },
} as const satisfies Readonly<Record<string, CurveStyle>>;

export type Look = keyof typeof LOOKS;
const IN_TURN = Object.keys(LOOKS) as Look[];

/** The look that was asked for; otherwise the one whose turn it is. */
export function styleOf(look: Look | undefined, index: number): CurveStyle {
  return LOOKS[look ?? IN_TURN[index % IN_TURN.length] ?? 'full'];
}

/** What the pen needs of a curve's style. */
export function strokeOf({ stroke, width, dash }: CurveStyle): Style {
  return {
    stroke,
    width,
    fill: 'none',
    join: 'round',
    cap: dash === undefined ? 'round' : 'butt',
    ...(dash && { dash }),
  };
}
