import type { Pen } from '@sheetwave/drawings';
import type { Point } from '@sheetwave/geometry';
import { INK, type Tones } from './palette.ts';

/** A round bar along a line: dark rim, body, and a highlight along its middle. */
export function drawStrokedRod(
  pen: Pen,
  points: readonly Point[],
  look: { readonly widthMm: number; readonly tones: Tones },
): void {
  const { widthMm, tones } = look;
  const body = Math.max(widthMm, 0.5);
  const stroke = (colour: string, width: number) =>
    pen.polyline(points, { stroke: colour, width, fill: 'none', cap: 'round', join: 'round' });
  stroke(INK, body + 0.3);
  stroke(tones.mid, body);
  stroke(tones.light, body * 0.4);
}
