import { type Figure, halfCapital, type Pen, textWidth } from '@sheetwave/drawings';
import type { Bounds } from '@sheetwave/geometry';
import { named } from './chart-area.ts';
import { GRID, INK, PAPER, QUIET, SMALL_MM, TEXT_MM, TITLE_MM } from './look.ts';
import { type PlotOptions, sizedOptions } from './options.ts';
import { niceTicks, type Ticks } from './ticks.ts';

export interface Bar {
  readonly name: string;
  readonly value: number;
  /** How far the value may be off, in its unit. */
  readonly error?: number;
}

export interface BarPlot {
  readonly bars: readonly Bar[];
  /** What the bars show, with its unit: `shift for 0.1 mm more, MHz`. */
  readonly label: string;
  /** Of the numbers at the bars; default 1. */
  readonly decimals?: number;
}

const ROW_MM = 6.5;
const BAR_MM = 3.6;
const MARGIN = 3;

/** Level bars from a common zero, one below the other in the order given. Throws RangeError for a value that is not finite. */
export function barChart(plot: BarPlot, options: PlotOptions): Figure {
  const { bars, label } = plot;
  if (bars.length === 0) throw new RangeError('a bar chart needs a bar.');
  for (const { name, value, error = 0 } of bars)
    if (!Number.isFinite(value) || !Number.isFinite(error))
      throw new RangeError(`the bar "${name}" must have a finite value and error, not ${value} and ${error}.`);
  const heightMm = Math.max(40, 26 + bars.length * ROW_MM);
  const sized = sizedOptions(options, { widthMm: 160, heightMm });
  const layout = layoutOf(plot, sized);
  const { title, about, widthMm } = sized;
  const draw = (pen: Pen): void => {
    named(pen, sized, 'title').text({ x: MARGIN, y: sized.heightMm - MARGIN - TITLE_MM * 0.8 }, title, {
      sizeMm: TITLE_MM,
      bold: true,
      colour: INK,
    });
    drawScale(named(pen, sized, 'axes'), layout, label);
    bars.forEach((bar, index) => {
      drawBar(named(pen, sized, `bar-${index + 1}`), layout, { bar, index, decimals: plot.decimals ?? 1 });
    });
  };
  return { title, about, widthMm, heightMm: sized.heightMm, draw };
}

interface Layout {
  readonly frame: Bounds;
  readonly rowMm: number;
  readonly ticks: Ticks;
  /** Of a value, across the page. */
  at(value: number): number;
}

function layoutOf({ bars }: BarPlot, { widthMm, heightMm }: Required<PlotOptions>): Layout {
  const names = Math.max(...bars.map(({ name }) => textWidth(name, { sizeMm: TEXT_MM })));
  const ends = bars.flatMap(({ value, error = 0 }) => [value - error, value + error]);
  const [low, high] = [Math.min(0, ...ends), Math.max(0, ...ends)];
  const [from, to] = low === high ? [0, 1] : [low, high];
  // Room for the number beyond the longest bar on either side.
  const beside = (to - from) * 0.14;
  const frame = {
    minX: MARGIN + names + 3,
    maxX: widthMm - MARGIN,
    minY: MARGIN + TEXT_MM + SMALL_MM + 5,
    maxY: heightMm - MARGIN - TITLE_MM - 3,
  };
  const [left, right] = [low < 0 ? from - beside : from, high > 0 || low === high ? to + beside : to];
  if (frame.maxX - frame.minX < 20) throw new RangeError(`${widthMm} mm leaves no room beside the names of the bars.`);
  const per = (frame.maxX - frame.minX) / (right - left);
  const rowMm = (frame.maxY - frame.minY) / bars.length;
  return { frame, rowMm, ticks: niceTicks(left, right, 7), at: (value) => frame.minX + (value - left) * per };
}

function drawScale(pen: Pen, { frame, ticks, at }: Layout, label: string): void {
  ticks.values.forEach((value, index) => {
    const x = at(value);
    pen.line({ x, y: frame.minY }, { x, y: frame.maxY }, { stroke: GRID, width: 0.2 });
    const words = { x, y: frame.minY - 1 - SMALL_MM };
    pen.text(words, ticks.texts[index] ?? '', { sizeMm: SMALL_MM, anchor: 'middle', colour: INK });
  });
  pen.line({ x: at(0), y: frame.minY }, { x: at(0), y: frame.maxY }, { stroke: INK, width: 0.35 });
  const middle = (frame.minX + frame.maxX) / 2;
  pen.text({ x: middle, y: MARGIN + 0.6 }, label, { sizeMm: TEXT_MM, anchor: 'middle', colour: QUIET });
}

function drawBar(
  pen: Pen,
  { frame, rowMm, at }: Layout,
  { bar, index, decimals }: { readonly bar: Bar; readonly index: number; readonly decimals: number },
): void {
  const { name, value, error } = bar;
  const y = frame.maxY - (index + 0.5) * rowMm;
  const half = Math.min(BAR_MM, rowMm * 0.7) / 2;
  const [zero, end] = [at(0), at(value)];
  const box = { minX: Math.min(zero, end), maxX: Math.max(zero, end), minY: y - half, maxY: y + half };
  if (box.maxX > box.minX) pen.box(box, { fill: '#b9c9d9', stroke: INK, width: 0.25 });
  pen.text({ x: frame.minX - 2, y: y - halfCapital(TEXT_MM) }, name, { sizeMm: TEXT_MM, anchor: 'end', colour: INK });
  const reach = at(value + (value < 0 ? -1 : 1) * (error ?? 0));
  if (error !== undefined && error > 0) drawError(pen, { y, from: at(value - error), to: at(value + error) });
  const words = { x: reach + (value < 0 ? -1.2 : 1.2), y: y - halfCapital(SMALL_MM) };
  const text = (Number(value.toFixed(decimals)) + 0).toFixed(decimals).replace('-', '\u2212');
  pen.text(words, text, { sizeMm: SMALL_MM, anchor: value < 0 ? 'end' : 'start', colour: INK, halo: PAPER });
}

function drawError(
  pen: Pen,
  { y, from, to }: { readonly y: number; readonly from: number; readonly to: number },
): void {
  const ink = { stroke: INK, width: 0.3 } as const;
  pen.line({ x: from, y }, { x: to, y }, ink);
  for (const x of [from, to]) pen.line({ x, y: y - 0.9 }, { x, y: y + 0.9 }, ink);
}
