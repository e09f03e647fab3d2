import { type Figure, halfCapital, type Pen } from '@sheetwave/drawings';
import type { Point } from '@sheetwave/geometry';
import { drawHeading, named } from './chart-area.ts';
import { type PlacedLegend, placeLegend } from './legend.ts';
import { type CurveStyle, GRID, INK, type Look, PAPER, QUIET, SMALL_MM, strokeOf, styleOf, TEXT_MM } from './look.ts';
import { drawMarker, markerPoints } from './marker.ts';
import { type PlotOptions, sizedOptions } from './options.ts';
import { stepUp, tickTexts } from './ticks.ts';

/** Gain along one cut through the pattern. */
export interface PolarCut {
  readonly name: string;
  /** From straight ahead, rad, positive to the right; in the order in which they are joined. */
  readonly angleRad: readonly number[];
  /** dBi, one for each angle; -Infinity for nothing at all. */
  readonly gainDbi: readonly number[];
  readonly look?: Look;
}

export interface PolarPlot {
  readonly cuts: readonly PolarCut[];
  /** What the numbers at the rings are: a gain, or a level against something else; default dBi. */
  readonly unit?: 'dBi' | 'dB';
  /** From the outer ring to the centre, dB; default 40. */
  readonly spanDb?: number;
  /** What stands at the right and at the left: `up`, `right` … Default none. */
  readonly sides?: { readonly right: string; readonly left: string };
}

interface Rings {
  readonly centre: Point;
  readonly radiusMm: number;
  readonly outerDbi: number;
  readonly spanDb: number;
}

const RING_DB = 10;
/** How far the words for the sides reach beyond the ring. */
const SIDE_MM = 8;
/** Where the rings have their numbers: a little behind the side, where patterns are weak. */
const RING_ANGLE = (Math.PI * 7) / 12;

/** Cuts of a pattern around the antenna in dBi, straight ahead upwards. Throws RangeError when no cut has a finite value. */
export function polarChart(plot: PolarPlot, options: PlotOptions): Figure {
  const sized = sizedOptions(options, { widthMm: 120, heightMm: 132 });
  const { spanDb = 40 } = plot;
  if (!(spanDb > 0)) throw new RangeError(`spanDb must be above 0, not ${spanDb}.`);
  for (const cut of plot.cuts) requireOneLength(cut);
  const finite = plot.cuts.flatMap(({ gainDbi }) => gainDbi).filter(Number.isFinite);
  if (finite.length === 0) throw new RangeError('a pattern needs a finite gain in some direction.');
  const highest = finite.reduce((a, b) => Math.max(a, b));
  const cuts = plot.cuts.map((cut, index) => ({ cut, style: styleOf(cut.look, index) }));
  const entries = cuts.map(({ cut, style }) => ({ name: cut.name, sample: { curve: style } }));
  const legend = placeLegend(entries.length > 1 ? entries : [], sized.widthMm - 6);
  const rings = { ...roomOf(sized, legend), outerDbi: stepUp(highest, 5), spanDb };
  const { title, about, widthMm, heightMm } = sized;
  const draw = (pen: Pen): void => {
    drawHeading(pen, sized, legend);
    drawRings(named(pen, sized, 'grid'), rings);
    cuts.forEach((one, index) => {
      drawCut(named(pen, sized, `curve-${index + 1}`), rings, one);
    });
    drawNumbers(named(pen, sized, 'numbers'), rings, plot);
  };
  return { title, about, widthMm, heightMm, draw };
}

function requireOneLength({ name, angleRad, gainDbi }: PolarCut): void {
  if (angleRad.length !== gainDbi.length)
    throw new RangeError(`the cut "${name}" has ${angleRad.length} angles and ${gainDbi.length} gains.`);
}

function roomOf(
  { widthMm, heightMm }: Required<PlotOptions>,
  legend: PlacedLegend,
): Pick<Rings, 'centre' | 'radiusMm'> {
  const top = heightMm - 9 - legend.heightMm;
  const radiusMm = Math.min(widthMm / 2 - 11, top / 2 - 8);
  return { centre: { x: widthMm / 2, y: top / 2 + 1 }, radiusMm };
}

/** A direction on the page: straight ahead is up, positive angles turn to the right. */
const towards = ({ centre }: Rings, angle: number, radiusMm: number): Point => ({
  x: centre.x + radiusMm * Math.sin(angle),
  y: centre.y + radiusMm * Math.cos(angle),
});

/** Distance from the centre; what is weaker than the centre stands for lies there. NaN for what is not a number. */
function radiusOf({ radiusMm, outerDbi, spanDb }: Rings, dbi: number): number {
  return Number.isNaN(dbi) ? dbi : radiusMm * Math.min(1, Math.max(0, 1 - (outerDbi - dbi) / spanDb));
}

const spokes = Array.from({ length: 12 }, (_, i) => (i * Math.PI) / 6);

function ringLevels({ outerDbi, spanDb }: Rings): readonly number[] {
  return Array.from({ length: Math.ceil(spanDb / RING_DB) }, (_, i) => outerDbi - i * RING_DB);
}

function drawRings(pen: Pen, rings: Rings): void {
  const faint = { stroke: GRID, width: 0.2, fill: 'none' } as const;
  for (const angle of spokes) pen.line(towards(rings, angle, 0), towards(rings, angle, rings.radiusMm), faint);
  for (const dbi of ringLevels(rings)) pen.circle(rings.centre, radiusOf(rings, dbi), { ...faint, stroke: '#c3c8cf' });
  pen.circle(rings.centre, rings.radiusMm, { stroke: INK, width: 0.35, fill: 'none' });
}

function drawCut(pen: Pen, rings: Rings, one: { readonly cut: PolarCut; readonly style: CurveStyle }): void {
  const { cut, style } = one;
  let line: Point[] = [];
  const finish = () => {
    if (line.length > 1) pen.polyline(line, strokeOf(style));
    for (const at of markerPoints(line)) drawMarker(pen, at, style);
    line = [];
  };
  cut.angleRad.forEach((angle, index) => {
    const radius = radiusOf(rings, cut.gainDbi[index] ?? Number.NaN);
    if (Number.isNaN(radius)) finish();
    else line.push(towards(rings, angle, radius));
  });
  finish();
}

function drawNumbers(pen: Pen, rings: Rings, { sides, unit = 'dBi' }: PolarPlot): void {
  const look = { sizeMm: SMALL_MM, colour: QUIET, halo: PAPER, anchor: 'middle' } as const;
  for (const angle of spokes) {
    const degrees = Math.round((angle * 180) / Math.PI);
    const text = `${degrees > 180 ? 360 - degrees : degrees}°`;
    const at = towards(rings, angle, rings.radiusMm + 3.6);
    pen.text({ x: at.x, y: at.y - halfCapital(SMALL_MM) }, text, look);
  }
  const levels = ringLevels(rings);
  const texts = tickTexts(levels);
  levels.forEach((dbi, index) => {
    const at = towards(rings, RING_ANGLE, radiusOf(rings, dbi));
    pen.text(
      { x: at.x, y: at.y - halfCapital(SMALL_MM) },
      `${texts[index] ?? ''}${index === 0 ? ` ${unit}` : ''}`,
      look,
    );
  });
  if (sides === undefined) return;
  // In the corners below the ring, where neither numbers nor curves come.
  const words = { sizeMm: TEXT_MM, colour: INK, halo: PAPER } as const;
  const y = rings.centre.y - rings.radiusMm - 2;
  pen.text({ x: rings.centre.x + rings.radiusMm + SIDE_MM, y }, sides.right, { ...words, anchor: 'end' });
  pen.text({ x: rings.centre.x - rings.radiusMm - SIDE_MM, y }, sides.left, { ...words, anchor: 'start' });
}
