import { halfCapital, type Pen, textWidth } from '@sheetwave/drawings';
import type { Point } from '@sheetwave/geometry';
import { GRID, INK, PAPER, QUIET, SMALL_MM } from './look.ts';
import { tickTexts } from './ticks.ts';

/**
 * The chart of reflection in the unit circle (P. H. Smith, "Transmission line calculator", Electronics 12, January 1939, p. 29):
 * the impedance z = r + jx times the reference lies at (z - 1)/(z + 1). Points of one r lie on a circle about r/(r + 1) of radius
 * 1/(r + 1); points of one x on a circle about (1, 1/x) of radius 1/|x|.
 */
export interface SmithPlace {
  readonly centre: Point;
  readonly radiusMm: number;
}

/** Resistances and reactances with a line, as parts of the reference; those of `STRONG` have a number. */
const STRONG = [0.2, 0.5, 1, 2, 5];
const FINE = [0.1, 0.3, 0.7, 1.4, 3, 10];
/** A line every two degrees of arc is within 0.02 mm of a circle of 100 mm. */
const STEP = Math.PI / 90;

/** A reflection coefficient on the page. */
export const smithPoint = (
  { centre, radiusMm }: SmithPlace,
  gamma: { readonly re: number; readonly im: number },
): Point => ({
  x: centre.x + gamma.re * radiusMm,
  y: centre.y + gamma.im * radiusMm,
});

export function drawSmithGrid(pen: Pen, place: SmithPlace): void {
  const faint = { stroke: GRID, width: 0.15, fill: 'none' } as const;
  const plain = { stroke: '#c3c8cf', width: 0.2, fill: 'none' } as const;
  for (const r of FINE) resistanceCircle(pen, place, { r, style: faint });
  for (const x of FINE.flatMap((one) => [one, -one])) pen.polyline(reactanceArc(place, x), faint);
  for (const r of STRONG) resistanceCircle(pen, place, { r, style: plain });
  for (const x of STRONG.flatMap((one) => [one, -one])) pen.polyline(reactanceArc(place, x), plain);
  pen.line(smithPoint(place, { re: -1, im: 0 }), smithPoint(place, { re: 1, im: 0 }), { ...plain, stroke: QUIET });
  pen.circle(place.centre, place.radiusMm, { stroke: INK, width: 0.35, fill: 'none' });
}

function resistanceCircle(
  pen: Pen,
  place: SmithPlace,
  { r, style }: { readonly r: number; readonly style: { stroke: string; width: number; fill: string } },
): void {
  pen.circle(smithPoint(place, { re: r / (r + 1), im: 0 }), place.radiusMm / (r + 1), style);
}

/** From the rim, where r is 0, to the right end, where it is infinite. */
function reactanceArc(place: SmithPlace, x: number): readonly Point[] {
  const middle = { re: 1, im: 1 / x };
  const radius = 1 / Math.abs(x);
  const rim = { re: (x * x - 1) / (x * x + 1), im: (2 * x) / (x * x + 1) };
  const start = Math.atan2(rim.im - middle.im, rim.re - middle.re);
  const end = Math.atan2(-middle.im, 0);
  // The arc inside the unit circle turns by less than half a circle, past the left side of its own.
  const turn = ((end - start + 3 * Math.PI) % (2 * Math.PI)) - Math.PI;
  const steps = Math.max(8, Math.ceil(Math.abs(turn) / STEP));
  return Array.from({ length: steps + 1 }, (_, i) => {
    const angle = start + (turn * i) / steps;
    return smithPoint(place, { re: middle.re + radius * Math.cos(angle), im: middle.im + radius * Math.sin(angle) });
  });
}

/** Numbers in ohm: resistances on the level line, reactances outside the rim. */
export function drawSmithNumbers(pen: Pen, place: SmithPlace, referenceOhm: number): void {
  const look = { sizeMm: SMALL_MM, colour: QUIET, halo: PAPER } as const;
  for (const r of STRONG) {
    const at = smithPoint(place, { re: (r - 1) / (r + 1), im: 0 });
    pen.text({ x: at.x + 0.6, y: at.y + 0.7 }, ohmText(r * referenceOhm), look);
  }
  for (const [x, sign] of STRONG.flatMap((one) => [[one, '+'] as const, [-one, '\u2212'] as const])) {
    const text = `${sign}j${ohmText(Math.abs(x) * referenceOhm)}`;
    const rim = { re: (x * x - 1) / (x * x + 1), im: (2 * x) / (x * x + 1) };
    const at = smithPoint(
      { ...place, radiusMm: place.radiusMm + 1.5 + (textWidth(text, look) / 2) * Math.abs(rim.re) },
      rim,
    );
    pen.text({ x: at.x, y: at.y - halfCapital(SMALL_MM) + rim.im * 0.6 }, text, { ...look, anchor: 'middle' });
  }
}

const ohmText = (ohm: number): string => tickTexts([Number(ohm.toPrecision(3))])[0] ?? '';
