import type { Contour } from '../contour.ts';
import type { Problem } from '../quantity.ts';
import { dxfStrokes } from './dxf.ts';
import { contourOfEdges, distance, type Edge, requireFew, type Strokes } from './edge.ts';
import { DrawingFault } from './fault.ts';
import { joinEdges } from './join.ts';
import { svgStrokes } from './svg.ts';
import type { DrawingUnit } from './units.ts';

/** Largest drawing that is read, in characters. */
const LARGEST = 1_000_000;
/** Sizes of a patch over all, mm. Outside them the unit is wrong. */
const [LEAST_MM, MOST_MM] = [0.5, 2000];

export type DrawingResult =
  | { readonly ok: true; readonly loops: readonly Contour[] }
  | { readonly ok: false; readonly problem: Problem };

/**
 * Closed curves of a drawing, in mm with y up; `.dxf` or `.svg` by its name. Curves other than arcs of circles become lines within
 * 0.005 mm. Never throws on text: what is wrong comes back as a problem in words.
 */
export function readDrawing(drawing: {
  readonly name: string;
  readonly text: string;
  readonly units: DrawingUnit | undefined;
}): DrawingResult {
  try {
    return { ok: true, loops: loopsOf(drawing) };
  } catch (error) {
    if (error instanceof DrawingFault) return { ok: false, problem: error.problem };
    throw error;
  }
}

function loopsOf({ name, text, units }: Parameters<typeof readDrawing>[0]): readonly Contour[] {
  if (text.length > LARGEST)
    throw new DrawingFault('drawing-too-large', 'is larger than 1 MB', 'draw only the outline of the patch');
  const strokes = name.toLowerCase().endsWith('.svg') ? svgStrokes(text, units) : dxfStrokes(text, units);
  requireSize(strokes);
  const closed = [...strokes.loops.map(withoutSpecks), ...joinEdges(strokes.edges)];
  const contours = closed.map(contourOfEdges).filter((contour) => contour !== undefined);
  const loops = [...contours, ...strokes.circles];
  if (loops.length > 0) return loops;
  throw new DrawingFault('outline-missing', 'holds no closed curve', 'draw the outline as one closed curve');
}

/** A closed polyline often repeats its first point as its last. */
function withoutSpecks(loop: readonly Edge[]): readonly Edge[] {
  return loop.filter((edge) => distance(edge.from, edge.to) > 1e-6);
}

function requireSize({ loops, edges, circles }: Strokes): void {
  const all = [...loops.flat(), ...edges];
  requireFew(all.length + circles.length);
  const points = [
    ...all.flatMap(({ from, to }) => [from, to]),
    ...circles.flatMap(({ centre: { x, y }, radiusMm: r }) => [
      { x: x - r, y: y - r },
      { x: x + r, y: y + r },
    ]),
  ];
  if (points.length === 0) return;
  const span = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);
  const size = Math.max(span(points.map(({ x }) => x)), span(points.map(({ y }) => y)));
  if (size >= LEAST_MM && size <= MOST_MM) return;
  const allowed = `is ${Number(size.toPrecision(3))} mm over all, outside ${LEAST_MM} mm to ${MOST_MM} mm`;
  throw new DrawingFault('drawing-size', allowed, 'check the unit that it is drawn in');
}
