import { halfCapital, type Pen, textWidth } from '@sheetwave/drawings';
import type { Point } from '@sheetwave/geometry';
import { type CurveStyle, INK, strokeOf, TEXT_MM } from './look.ts';
import { drawMarker } from './marker.ts';

/** One line of what the curves mean. */
export interface LegendEntry {
  readonly name: string;
  /** A curve, or the fill of an area. */
  readonly sample: { readonly curve: CurveStyle } | { readonly fill: string };
}

const SAMPLE_MM = 9;
const GAP_MM = 5;
const ROW_MM = 4.4;

export interface PlacedLegend {
  readonly entries: readonly { readonly entry: LegendEntry; readonly corner: Point }[];
  readonly heightMm: number;
}

/** Entries side by side, a new row where the width ends. Corners count from the upper left, y downwards negative. */
export function placeLegend(entries: readonly LegendEntry[], widthMm: number): PlacedLegend {
  const placed: { entry: LegendEntry; corner: Point }[] = [];
  let [x, row] = [0, 0];
  for (const entry of entries) {
    const width = SAMPLE_MM + 1.5 + textWidth(entry.name, { sizeMm: TEXT_MM });
    if (x > 0 && x + width > widthMm) [x, row] = [0, row + 1];
    placed.push({ entry, corner: { x, y: -row * ROW_MM } });
    x += width + GAP_MM;
  }
  return { entries: placed, heightMm: placed.length === 0 ? 0 : (row + 1) * ROW_MM };
}

export function drawLegend(pen: Pen, legend: PlacedLegend, corner: Point): void {
  const group = pen.group('legend');
  for (const { entry, corner: at } of legend.entries) {
    const left = { x: corner.x + at.x, y: corner.y + at.y - ROW_MM / 2 };
    drawSample(group, left, entry.sample);
    const words = { x: left.x + SAMPLE_MM + 1.5, y: left.y - halfCapital(TEXT_MM) };
    group.text(words, entry.name, { sizeMm: TEXT_MM, colour: INK });
  }
}

function drawSample(pen: Pen, left: Point, sample: LegendEntry['sample']): void {
  const right = { x: left.x + SAMPLE_MM, y: left.y };
  if ('fill' in sample) {
    pen.box(
      { minX: left.x, maxX: right.x, minY: left.y - 1.3, maxY: left.y + 1.3 },
      { fill: sample.fill, stroke: 'none' },
    );
    return;
  }
  pen.line(left, right, strokeOf(sample.curve));
  drawMarker(pen, { x: left.x + SAMPLE_MM / 2, y: left.y }, sample.curve);
}
