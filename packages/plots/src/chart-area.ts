import { grow, halfCapital, type Pen, textWidth } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';
import { drawLegend, type LegendEntry, type PlacedLegend, placeLegend } from './legend.ts';
import { GRID, INK, QUIET, SMALL_MM, TEXT_MM, TITLE_MM } from './look.ts';
import type { PlotOptions } from './options.ts';
import type { Ticks } from './ticks.ts';

/** One axis: what is along it, with its unit, and the span that is shown. */
export interface Axis {
  readonly label: string;
  readonly from: number;
  readonly to: number;
  readonly ticks: Ticks;
}

/** Where a diagram with two straight axes lies on its figure, and how a value becomes a place. */
export interface ChartArea {
  readonly frame: Bounds;
  readonly legend: PlacedLegend;
  readonly x: Axis;
  readonly y: Axis;
  readonly options: Required<PlotOptions>;
  /** A point in units of the axes on the page. Infinities stay infinite. */
  at(value: Point): Point;
}

const MARGIN = 3;
const TICK = 1.2;

export function chartArea(
  axes: { readonly x: Axis; readonly y: Axis },
  options: Required<PlotOptions>,
  entries: readonly LegendEntry[],
): ChartArea {
  const { x, y } = axes;
  const legend = placeLegend(entries, options.widthMm - 2 * MARGIN);
  const yTexts = Math.max(0, ...y.ticks.texts.map((text) => textWidth(text, { sizeMm: SMALL_MM })));
  const lastX = textWidth(x.ticks.texts.at(-1) ?? '', { sizeMm: SMALL_MM }) / 2;
  const frame = {
    minX: MARGIN + (y.label === '' ? 0 : TEXT_MM + 2) + yTexts + TICK + 1,
    maxX: options.widthMm - MARGIN - lastX,
    minY: MARGIN + TEXT_MM + 2 + SMALL_MM + TICK + 1,
    maxY: options.heightMm - MARGIN - TITLE_MM - 2.5 - (legend.heightMm > 0 ? legend.heightMm + 1 : 0),
  };
  if (frame.maxX - frame.minX < 15 || frame.maxY - frame.minY < 15)
    throw new RangeError(
      `${options.widthMm} by ${options.heightMm} mm leaves no room for the diagram "${options.title}".`,
    );
  const [perX, perY] = [(frame.maxX - frame.minX) / (x.to - x.from), (frame.maxY - frame.minY) / (y.to - y.from)];
  const at = (value: Point): Point => ({
    x: frame.minX + (value.x - x.from) * perX,
    y: frame.minY + (value.y - y.from) * perY,
  });
  return { frame, legend, x, y, options, at };
}

/** A group of the figure under a name that no other figure has. */
export const named = (pen: Pen, options: Required<PlotOptions>, part: string): Pen =>
  pen.group(`${options.name}-${part}`);

export function drawHeading(pen: Pen, options: Required<PlotOptions>, legend: PlacedLegend): void {
  const top = options.heightMm - MARGIN;
  named(pen, options, 'title').text({ x: MARGIN, y: top - TITLE_MM * 0.8 }, options.title, {
    sizeMm: TITLE_MM,
    bold: true,
    colour: INK,
  });
  if (legend.entries.length > 0)
    drawLegend(named(pen, options, 'legend'), legend, { x: MARGIN, y: top - TITLE_MM - 2 });
}

/** Grid lines, below everything else. */
export function drawGrid(pen: Pen, { frame, x, y, at, options }: ChartArea): void {
  const upright = x.ticks.values.map((value) => at({ x: value, y: y.from }).x);
  const level = y.ticks.values.map((value) => at({ x: x.from, y: value }).y);
  const inside = grow(frame, -0.01);
  const lines = [
    ...upright
      .filter((place) => place > inside.minX && place < inside.maxX)
      .map(
        (place) =>
          [
            { x: place, y: frame.minY },
            { x: place, y: frame.maxY },
          ] as const,
      ),
    ...level
      .filter((place) => place > inside.minY && place < inside.maxY)
      .map(
        (place) =>
          [
            { x: frame.minX, y: place },
            { x: frame.maxX, y: place },
          ] as const,
      ),
  ];
  if (lines.length > 0) named(pen, options, 'grid').lines(lines, { stroke: GRID, width: 0.2, fill: 'none' });
}

/** The frame with its marks, numbers and labels, above everything else. */
export function drawAxes(pen: Pen, area: ChartArea): void {
  const { frame, x, y, options, at } = area;
  const group = named(pen, options, 'axes');
  group.box(frame, { stroke: INK, width: 0.3, fill: 'none', id: `${options.name}-frame` });
  x.ticks.values.forEach((value, index) => {
    const place = at({ x: value, y: y.from });
    group.line({ x: place.x, y: frame.minY }, { x: place.x, y: frame.minY - TICK }, { stroke: INK, width: 0.3 });
    const words = { x: place.x, y: frame.minY - TICK - 0.8 - SMALL_MM * 0.75 };
    group.text(words, x.ticks.texts[index] ?? '', { sizeMm: SMALL_MM, anchor: 'middle', colour: INK });
  });
  y.ticks.values.forEach((value, index) => {
    const place = at({ x: x.from, y: value });
    group.line({ x: frame.minX, y: place.y }, { x: frame.minX - TICK, y: place.y }, { stroke: INK, width: 0.3 });
    const words = { x: frame.minX - TICK - 0.8, y: place.y - halfCapital(SMALL_MM) };
    group.text(words, y.ticks.texts[index] ?? '', { sizeMm: SMALL_MM, anchor: 'end', colour: INK });
  });
  const middle = { x: (frame.minX + frame.maxX) / 2, y: (frame.minY + frame.maxY) / 2 };
  group.text({ x: middle.x, y: MARGIN + 0.6 }, x.label, { sizeMm: TEXT_MM, anchor: 'middle', colour: QUIET });
  const left = { x: MARGIN + TEXT_MM * 0.8, y: middle.y };
  if (y.label !== '') group.text(left, y.label, { sizeMm: TEXT_MM, anchor: 'middle', upright: false, colour: QUIET });
}
