import { boxCorners, clipLine, clipPolygon, type Figure, type Pen, textBox } from '@sheetwave/drawings';
import type { Bounds, Point } from '@sheetwave/geometry';
import { type Axis, type ChartArea, chartArea, drawAxes, drawGrid, drawHeading, named } from './chart-area.ts';
import { clipToBox } from './clip-curve.ts';
import type { LegendEntry } from './legend.ts';
import { type CurveStyle, INK, type Look, PAPER, SMALL_MM, strokeOf, styleOf, UNWANTED, WANTED } from './look.ts';
import { drawMarker, markerPoints } from './marker.ts';
import { type PlotOptions, sizedOptions } from './options.ts';
import { niceTicks, type Ticks } from './ticks.ts';

/** One curve, in units of the axes. A point that is not a number breaks it; one at infinity runs off the frame. */
export interface PlotCurve {
  readonly name: string;
  readonly points: readonly Point[];
  /** Default the one whose turn it is. */
  readonly look?: Look;
  /** Marks every point, for few points that each mean something. */
  readonly marksEach?: boolean;
  /** How far the curve may be off: one lowest and one highest value for each point. */
  readonly band?: { readonly lower: readonly number[]; readonly upper: readonly number[] };
  /** Fills down to the lower edge, as ground. */
  readonly filled?: boolean;
}

export interface AxisSpan {
  /** With its unit: `frequency, GHz`. */
  readonly label: string;
  readonly from: number;
  readonly to: number;
  /** Names at places, instead of round numbers. */
  readonly ticks?: Ticks;
}

/** An area behind the curves; a side that is left out is that of the frame. */
export interface Shade {
  readonly kind: 'wanted' | 'unwanted';
  readonly fromX?: number;
  readonly toX?: number;
  readonly fromY?: number;
  readonly toY?: number;
}

export interface XyChart {
  readonly x: AxisSpan;
  readonly y: AxisSpan;
  readonly curves: readonly PlotCurve[];
  readonly shades?: readonly Shade[];
  /** Level lines with words at their right end. */
  readonly limits?: readonly { readonly y: number; readonly label: string }[];
  /** Upright lines with words at their foot. */
  readonly marks?: readonly { readonly x: number; readonly label: string }[];
}

/** Curves over two straight axes. Throws RangeError for an axis without a span and a band that does not fit its curve. */
export function xyChart(chart: XyChart, options: PlotOptions): Figure {
  const sized = sizedOptions(options, { widthMm: 160, heightMm: 100 });
  const curves = chart.curves.map((curve, index) => ({ curve, style: styleOf(curve.look, index) }));
  for (const { curve } of curves) checkBand(curve);
  const axes = {
    x: axisOf(chart.x, Math.floor(sized.widthMm / 18)),
    y: axisOf(chart.y, Math.floor(sized.heightMm / 12)),
  };
  const area = chartArea(axes, sized, legendOf(curves));
  const { title, about, widthMm, heightMm } = sized;
  return { title, about, widthMm, heightMm, draw: (pen) => drawChart(pen, { chart, curves, area }) };
}

interface Styled {
  readonly curve: PlotCurve;
  readonly style: CurveStyle;
}

function checkBand({ name, points, band }: PlotCurve): void {
  if (band === undefined) return;
  if (band.lower.length !== points.length || band.upper.length !== points.length)
    throw new RangeError(`the band of "${name}" must have ${points.length} values, as its curve has points.`);
}

function axisOf({ label, from, to, ticks }: AxisSpan, count: number): Axis {
  return { label, from, to, ticks: ticks ?? niceTicks(from, to, Math.max(2, count)) };
}

/** A single curve needs no legend beside its axis, unless it has a band to explain. */
function legendOf(curves: readonly Styled[]): readonly LegendEntry[] {
  const entries = curves.flatMap(({ curve, style }): LegendEntry[] => [
    { name: curve.name, sample: curve.filled === true ? { fill: groundOf(style) } : { curve: style } },
    ...(curve.band ? [{ name: `${curve.name}: may lie within`, sample: { fill: bandOf(style) } }] : []),
  ]);
  return entries.length > 1 ? entries : [];
}

const BAND_OPACITY = 0.22;
const bandOf = ({ stroke }: CurveStyle): string => lighter(stroke, BAND_OPACITY);
const groundOf = ({ stroke }: CurveStyle): string => lighter(stroke, 0.35);

/** A colour as it looks on white at this opacity: fills stay opaque, which every reader draws alike. */
function lighter(colour: string, opacity: number): string {
  const channel = (at: number): string =>
    Math.round(255 + (Number.parseInt(colour.slice(at, at + 2), 16) - 255) * opacity)
      .toString(16)
      .padStart(2, '0');
  return `#${channel(1)}${channel(3)}${channel(5)}`;
}

interface Drawn {
  readonly chart: XyChart;
  readonly curves: readonly Styled[];
  readonly area: ChartArea;
}

function drawChart(pen: Pen, { chart, curves, area }: Drawn): void {
  const { options } = area;
  drawHeading(pen, options, area.legend);
  drawShades(pen, area, chart.shades ?? []);
  const fills = named(pen, options, 'areas');
  for (const styled of curves) drawFills(fills, area, styled);
  drawGrid(pen, area);
  curves.forEach((styled, index) => {
    drawCurve(named(pen, options, `curve-${index + 1}`), area, styled);
  });
  drawLimits(pen, area, chart);
  drawAxes(pen, area);
}

function drawShades(pen: Pen, area: ChartArea, shades: readonly Shade[]): void {
  const group = named(pen, area.options, 'shades');
  for (const kind of ['wanted', 'unwanted'] as const)
    for (const shade of shades.filter((one) => one.kind === kind)) {
      const box = shadeBox(area, shade);
      if (!(box.minX < box.maxX && box.minY < box.maxY)) continue;
      if (kind === 'wanted') group.box(box, { fill: WANTED, stroke: 'none' });
      else drawHatch(group, box);
    }
}

function shadeBox({ frame, x, y, at }: ChartArea, shade: Shade): Bounds {
  const low = at({ x: shade.fromX ?? x.from, y: shade.fromY ?? y.from });
  const high = at({ x: shade.toX ?? x.to, y: shade.toY ?? y.to });
  return {
    minX: Math.max(low.x, frame.minX),
    maxX: Math.min(high.x, frame.maxX),
    minY: Math.max(low.y, frame.minY),
    maxY: Math.min(high.y, frame.maxY),
  };
}

/** Slanting lines: what must not be entered is told from what is wanted without colour. */
function drawHatch(pen: Pen, box: Bounds): void {
  const height = box.maxY - box.minY;
  const lines: (readonly [Point, Point])[] = [];
  for (let x = box.minX - height + 0.6; x < box.maxX; x += 1.6) {
    const [from, to] = [
      { x, y: box.minY },
      { x: x + height, y: box.maxY },
    ];
    const part = clipLine(from, to, box);
    if (part !== undefined) lines.push([along(from, to, part[0]), along(from, to, part[1])]);
  }
  if (lines.length > 0) pen.lines(lines, { stroke: UNWANTED, width: 0.25, fill: 'none' });
}

const along = (from: Point, to: Point, part: number): Point => ({
  x: from.x + (to.x - from.x) * part,
  y: from.y + (to.y - from.y) * part,
});

function drawFills(pen: Pen, area: ChartArea, { curve, style }: Styled): void {
  const { points, band } = curve;
  if (curve.filled === true) {
    const lower = points.map(() => area.y.from);
    fillBetween(pen, area, { points, lower, upper: points.map(({ y }) => y), fill: groundOf(style) });
  }
  if (band !== undefined) fillBetween(pen, area, { points, ...band, fill: bandOf(style) });
}

interface Fill {
  readonly points: readonly Point[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly fill: string;
}

/** The area between two curves over the same places, cut to the frame, in runs without a missing value. */
function fillBetween(pen: Pen, { frame, at }: ChartArea, { points, lower, upper, fill }: Fill): void {
  const ends = points.map(({ x }, index) => ({
    low: outside(at({ x, y: lower[index] ?? Number.NaN }), frame),
    high: outside(at({ x, y: upper[index] ?? Number.NaN }), frame),
  }));
  for (const run of runsOf(ends, ({ low, high }) => [low.x, low.y, high.y].every(Number.isFinite))) {
    const ring = [...run.map(({ low }) => low), ...run.map(({ high }) => high).reverse()];
    const shown = clipPolygon(ring, boxCorners(frame));
    if (shown.length > 2) pen.polygon(shown, { fill, stroke: 'none' });
  }
}

/** An infinite end, put well outside the frame. */
function outside({ x, y }: Point, frame: Bounds): Point {
  const height = frame.maxY - frame.minY;
  return { x, y: Number.isNaN(y) ? y : Math.min(Math.max(y, frame.minY - 10 * height), frame.maxY + 10 * height) };
}

function runsOf<T>(all: readonly T[], sound: (one: T) => boolean): readonly (readonly T[])[] {
  const runs: T[][] = [[]];
  for (const one of all) {
    if (sound(one)) runs.at(-1)?.push(one);
    else runs.push([]);
  }
  return runs.filter((run) => run.length > 1);
}

function drawCurve(pen: Pen, { frame, at }: ChartArea, { curve, style }: Styled): void {
  const places = curve.points.map(at);
  const lines = clipToBox(places, frame);
  for (const line of lines) pen.polyline(line, strokeOf(style));
  if (curve.marksEach === true) {
    const marker = style.marker ?? 'ring';
    for (const place of places) if (isInside(place, frame)) drawMarker(pen, place, { ...style, marker });
    return;
  }
  for (const line of lines) for (const place of markerPoints(line)) drawMarker(pen, place, style);
}

const isInside = ({ x, y }: Point, { minX, maxX, minY, maxY }: Bounds): boolean =>
  x >= minX && x <= maxX && y >= minY && y <= maxY;

function drawLimits(pen: Pen, area: ChartArea, { limits = [], marks = [] }: XyChart): void {
  const { frame, at, x, y, options } = area;
  const group = named(pen, options, 'limits');
  const look = { sizeMm: SMALL_MM, colour: INK, halo: PAPER } as const;
  for (const limit of limits) {
    const place = at({ x: x.from, y: limit.y });
    if (!isInside({ x: frame.minX, y: place.y }, frame)) continue;
    group.line(
      { x: frame.minX, y: place.y },
      { x: frame.maxX, y: place.y },
      { stroke: INK, width: 0.3, dash: [3, 1, 0.6, 1] },
    );
    const above = place.y + SMALL_MM < frame.maxY - 0.5;
    const base = above ? place.y + 0.7 : place.y - 0.7 - SMALL_MM * 0.75;
    group.text({ x: frame.maxX - 1.2, y: base }, limit.label, { ...look, anchor: 'end' });
  }
  let row = 0;
  let lastEnd = Number.NEGATIVE_INFINITY;
  for (const mark of [...marks].sort((a, b) => a.x - b.x)) {
    const place = at({ x: mark.x, y: y.from });
    if (!isInside({ x: place.x, y: frame.minY }, frame)) continue;
    group.line(
      { x: place.x, y: frame.minY },
      { x: place.x, y: frame.maxY },
      { stroke: INK, width: 0.25, dash: [0.8, 0.8] },
    );
    const box = textBox(mark.label, { x: place.x, y: 0 }, { sizeMm: SMALL_MM, anchor: 'middle' });
    const shift = Math.max(0, frame.minX + 1 - box.minX) - Math.max(0, box.maxX - frame.maxX + 1);
    row = box.minX + shift < lastEnd ? row + 1 : 0;
    lastEnd = Math.max(row === 0 ? Number.NEGATIVE_INFINITY : lastEnd, box.maxX + shift + 1.5);
    const base = frame.minY + 1.5 + row * (SMALL_MM + 1.2);
    group.text({ x: place.x + shift, y: base }, mark.label, { ...look, anchor: 'middle' });
  }
}
