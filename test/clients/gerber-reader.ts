import * as clipper from 'clipper2-ts';
import gerberParser from 'gerber-parser';
import gerberPlotter from 'gerber-plotter';

type Paths = clipper.PathsD;
type PlotObject = gerberPlotter.Chunk;

/** The copper (or ink, or openings) that an independent reader makes of a Gerber file. */
export interface ReadImage {
  readonly areaMm2: number;
  /** Length of all edges. */
  readonly perimeterMm: number;
  readonly islands: number;
  readonly openings: number;
  /** Left, low, right, high in mm. */
  readonly bounds: readonly [number, number, number, number];
  /** What the reader complained about, but for attributes, which it does not know. */
  readonly warnings: readonly string[];
}

const DECIMALS = 6;
/** Points on a half turn when an arc is flattened: area 1 - 6e-6 of the circle's. */
const POINTS_A_HALF_TURN = 512;

/** Reads with gerber-parser and gerber-plotter, and joins what they plot with Clipper2. */
export async function readWithPlotter(bytes: Uint8Array): Promise<ReadImage> {
  const { objects, warnings } = await plot(bytes);
  const image = paint(objects);
  const { left, top, right, bottom } = clipper.getBoundsPathsD(image);
  return {
    areaMm2: clipper.areaPathsD(image),
    perimeterMm: image.reduce((sum, path) => sum + pathLength(path), 0),
    islands: image.filter((path) => clipper.areaD(path) > 0).length,
    openings: image.filter((path) => clipper.areaD(path) < 0).length,
    bounds: [left, top, right, bottom],
    warnings,
  };
}

function pathLength(path: clipper.PathD): number {
  return path.reduce((sum, point, index) => {
    const before = path.at(index - 1) ?? point;
    return sum + Math.hypot(point.x - before.x, point.y - before.y);
  }, 0);
}

function plot(bytes: Uint8Array): Promise<{ objects: PlotObject[]; warnings: string[] }> {
  return new Promise((resolve, reject) => {
    const parser = gerberParser({ filetype: 'gerber' });
    const plotter = gerberPlotter({});
    const objects: PlotObject[] = [];
    const warnings: string[] = [];
    const warn = ({ message }: { message: string }) => {
      if (!/block "?%?T[FAD]/.test(message)) warnings.push(message);
    };
    for (const stage of [parser, plotter]) stage.on('warning', warn).on('error', reject);
    plotter.on('data', (object: PlotObject) => objects.push(object));
    plotter.on('end', () => resolve({ objects, warnings }));
    parser.pipe(plotter);
    parser.end(new TextDecoder().decode(bytes));
  });
}

function paint(objects: readonly PlotObject[]): Paths {
  const tools = new Map<string, number>();
  let image: Paths = [];
  let clear = false;
  for (const object of objects) {
    if (object.type === 'polarity') clear = object.polarity === 'clear';
    else if (object.type === 'shape') tools.set(object.tool, discRadius(object));
    else if (object.type !== 'size') image = combine(image, plotted(object, tools), clear);
  }
  return image;
}

function combine(image: Paths, paths: Paths, clear: boolean): Paths {
  const how = clear ? clipper.ClipType.Difference : clipper.ClipType.Union;
  return clipper.booleanOpD(how, image, paths, clipper.FillRule.NonZero, DECIMALS);
}

function plotted(object: PlotObject, tools: ReadonlyMap<string, number>): Paths {
  if (object.type === 'pad') return [disc(object.x, object.y, tools.get(object.tool) ?? Number.NaN)];
  if (object.type === 'fill')
    return clipper.booleanOpD(clipper.ClipType.Union, loops(object.path), [], clipper.FillRule.EvenOdd, DECIMALS);
  if (object.type === 'stroke') return object.path.flatMap((segment) => thick(segment, object.width));
  throw new Error(`the plotter gives a ${object.type}`);
}

function discRadius({ shape }: gerberPlotter.ChunkShape): number {
  const [only] = shape;
  if (shape.length !== 1 || only?.type !== 'circle') throw new Error('an aperture that is not round');
  return only.r;
}

function disc(x: number, y: number, radius: number): clipper.PathD {
  const count = 2 * POINTS_A_HALF_TURN;
  return Array.from({ length: count }, (_, index) => {
    const angle = (2 * Math.PI * index) / count;
    return { x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) };
  });
}

/** Contours of a region; a contour begins where a segment does not start at the end of the one before. Throws for an open one. */
function loops(segments: readonly gerberPlotter.Segment[]): Paths {
  const found: clipper.PathD[] = [];
  for (const segment of segments) {
    const start = { x: segment.start[0], y: segment.start[1] };
    const current = found.at(-1);
    const end = current?.at(-1);
    const points = segmentPoints(segment);
    if (current && end && Math.hypot(end.x - start.x, end.y - start.y) < 2e-5) current.push(...points);
    else found.push([start, ...points]);
  }
  for (const loop of found) requireClosed(loop);
  return found;
}

function requireClosed(loop: clipper.PathD): void {
  const [first, last] = [loop[0], loop.at(-1)];
  if (!first || !last || Math.hypot(first.x - last.x, first.y - last.y) > 2e-5) throw new Error('an open contour');
}

function thick(segment: gerberPlotter.Segment, width: number): Paths {
  const line = [{ x: segment.start[0], y: segment.start[1] }, ...segmentPoints(segment)];
  const { Round } = clipper.JoinType;
  return clipper.inflatePathsD([line], width / 2, Round, clipper.EndType.Round, 2, DECIMALS, 1e-5);
}

function segmentPoints(segment: gerberPlotter.Segment): clipper.PathD {
  if (segment.type === 'line') return [{ x: segment.end[0], y: segment.end[1] }];
  const { center, radius, dir, start } = segment;
  const sweep = dir === 'cw' ? -segment.sweep : segment.sweep;
  const count = Math.max(8, Math.ceil((Math.abs(sweep) * POINTS_A_HALF_TURN) / Math.PI));
  return Array.from({ length: count }, (_, index) => {
    const angle = start[2] + (sweep * (index + 1)) / count;
    return { x: center[0] + radius * Math.cos(angle), y: center[1] + radius * Math.sin(angle) };
  });
}
