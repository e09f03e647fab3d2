import { type Figure, type Pen, placeLabels } from '@sheetwave/drawings';
import { type Complex, magnitudeOfVswr } from '@sheetwave/rf';
import { drawHeading, named } from './chart-area.ts';
import { clipToCircle } from './clip-curve.ts';
import { type PlacedLegend, placeLegend } from './legend.ts';
import { type CurveStyle, INK, PAPER, QUIET, SMALL_MM, strokeOf, styleOf, TEXT_MM } from './look.ts';
import { drawMarker, markerPoints } from './marker.ts';
import { type PlotOptions, sizedOptions } from './options.ts';
import { type ReflectionCurve, reflectionAt } from './reflection-curve.ts';
import { drawSmithGrid, drawSmithNumbers, type SmithPlace, smithPoint } from './smith-grid.ts';

export interface SmithPlot {
  /** All against one reference impedance. */
  readonly curves: readonly ReflectionCurve[];
  /** Frequencies that get a dot on every curve that reaches them, and their name on the first. */
  readonly marks?: readonly { readonly freqHz: number; readonly label: string }[];
  /** A dashed circle around the centre. */
  readonly vswr?: number;
}

const RIM_MM = 9;
/** What a sweep reflects beyond the rim is shown this far out, then cut. */
const BEYOND = 1.05;

/** Reflection as a curve in the unit circle, over lines of equal resistance and reactance. Throws RangeError for different references. */
export function smithChart(plot: SmithPlot, options: PlotOptions): Figure {
  const sized = sizedOptions(options, { widthMm: 120, heightMm: 132 });
  const referenceOhm = onlyReference(plot.curves);
  const curves = plot.curves.map((curve, index) => ({ curve, style: styleOf(curve.look, index) }));
  const entries = curves.map(({ curve, style }) => ({ name: curve.name, sample: { curve: style } }));
  const legend = placeLegend(entries.length > 1 ? entries : [], sized.widthMm - 6);
  const place = placeOf(sized, legend);
  const { title, about, widthMm, heightMm } = sized;
  const draw = (pen: Pen): void => {
    drawHeading(pen, sized, legend);
    const grid = named(pen, sized, 'grid');
    drawSmithGrid(grid, place);
    drawSmithNumbers(grid, place, referenceOhm);
    if (plot.vswr !== undefined) drawRatioCircle(named(pen, sized, 'limit'), place, plot.vswr);
    curves.forEach((one, index) => {
      drawCurve(named(pen, sized, `curve-${index + 1}`), place, one);
    });
    drawMarks(named(pen, sized, 'marks'), place, { curves, marks: plot.marks ?? [] });
    const circle = plot.vswr === undefined ? '' : ` Dashed circle: VSWR ${plot.vswr}.`;
    const caption = `Centre: ${referenceOhm} ohm. Numbers: resistance and reactance in ohm.${circle}`;
    named(pen, sized, 'caption').text({ x: widthMm / 2, y: 3.5 }, caption, {
      sizeMm: SMALL_MM,
      anchor: 'middle',
      colour: QUIET,
    });
  };
  return { title, about, widthMm, heightMm, draw };
}

function onlyReference(curves: readonly ReflectionCurve[]): number {
  const [first, other] = [...new Set(curves.map(({ referenceOhm }) => referenceOhm))];
  if (first === undefined) throw new RangeError('a Smith chart needs a curve.');
  if (other !== undefined)
    throw new RangeError(`all curves must have one reference impedance, not ${first} and ${other} ohm.`);
  return first;
}

function placeOf({ widthMm, heightMm }: Required<PlotOptions>, legend: PlacedLegend): SmithPlace {
  const top = heightMm - 9 - legend.heightMm;
  const bottom = 7;
  const radiusMm = Math.min(widthMm / 2 - RIM_MM, (top - bottom) / 2 - 4);
  return { centre: { x: widthMm / 2, y: (top + bottom) / 2 }, radiusMm };
}

function drawRatioCircle(pen: Pen, place: SmithPlace, vswr: number): void {
  const radius = place.radiusMm * magnitudeOfVswr(vswr);
  pen.circle(place.centre, radius, { stroke: INK, width: 0.3, dash: [1.6, 1], fill: 'none' });
}

interface Styled {
  readonly curve: ReflectionCurve;
  readonly style: CurveStyle;
}

function drawCurve(pen: Pen, place: SmithPlace, { curve, style }: Styled): void {
  const points = curve.reflection.map((gamma) => smithPoint(place, gamma));
  for (const line of clipToCircle(points, { centre: place.centre, radius: place.radiusMm * BEYOND })) {
    pen.polyline(line, strokeOf(style));
    for (const at of markerPoints(line)) drawMarker(pen, at, style);
  }
}

function drawMarks(
  pen: Pen,
  place: SmithPlace,
  { curves, marks }: { readonly curves: readonly Styled[]; readonly marks: NonNullable<SmithPlot['marks']> },
): void {
  const shown = curves.flatMap(({ curve, style }, index) =>
    marks.flatMap(({ freqHz, label }) => {
      const gamma = reflectionAt(curve, freqHz);
      return gamma === undefined || !isShown(gamma)
        ? []
        : [{ at: smithPoint(place, gamma), label, style, isFirst: index === 0 }];
    }),
  );
  for (const { at, style } of shown) pen.circle(at, 0.9, { fill: style.stroke, stroke: PAPER, width: 0.25 });
  const wishes = shown
    .filter(({ isFirst }) => isFirst)
    .map(({ at, label }) => ({ text: label, centre: at, radiusMm: 0.9 }));
  for (const { text, at, anchor } of placeLabels(wishes, { sizeMm: TEXT_MM, keepClear: [] }))
    pen.text({ x: at.x, y: at.y }, text, { sizeMm: TEXT_MM, anchor, bold: true, colour: INK, halo: PAPER });
}

const isShown = ({ re, im }: Complex): boolean => Math.hypot(re, im) <= BEYOND;
