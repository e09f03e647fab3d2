import { grow, overlaps, type Pen, type Style, type TextStyle, textBox } from '@sheetwave/drawings';
import { type Bounds, boundsOfPoints, type Point } from '@sheetwave/geometry';
import { closedPath, contourPath, movedPath, openPath, type PathCommand } from './path-commands.ts';
import type { PathLook, PdfPage } from './pdf-file.ts';

/** Where a drawing goes on a page. */
export interface Place {
  readonly page: PdfPage;
  /** From drawing coordinates to the page's; keeps lengths. */
  readonly toPage: (point: Point) => Point;
  /** The part of the drawing that the page shows. What lies wholly outside is not drawn at all. */
  readonly window: Bounds;
}

/** A pen on a page. Groups pass their style on; a name has no place in a PDF and is dropped. */
export function penOn(place: Place, inherited: Style = {}): Pen {
  const draw = (commands: readonly PathCommand[], style: Style) => {
    const look = lookOf({ ...inherited, ...style });
    if (isSeen(commands, look, place.window)) place.page.path(movedPath(commands, place.toPage), look);
  };
  return {
    group: (_, style = {}) => penOn(place, { ...inherited, ...style }),
    line: (from, to, style = {}) => draw(openPath([from, to]), style),
    lines: (pairs, style = {}) => draw(pairs.flatMap(openPath), style),
    polyline: (points, style = {}) => draw(openPath(points), style),
    polygon: (points, style = {}) => draw(closedPath(points), style),
    polygons: (rings, style = {}) => draw(rings.flatMap(closedPath), style),
    circle: (centre, radiusMm, style = {}) => draw(contourPath({ kind: 'circle', centre, radiusMm }), style),
    box: (box, style = {}) => draw(closedPath(corners(box)), style),
    contours: (contours, style = {}) => draw(contours.flatMap(contourPath), style),
    text: (at, text, style) => drawText(place, at, { text, style }),
  };
}

/** What SVG paints when nothing is said: filled black, no line (SVG 1.1 section 11.3). Both outputs then agree. */
function lookOf(style: Style): PathLook {
  return {
    stroke: painted(style.stroke ?? 'none'),
    fill: painted(style.fill ?? '#000000'),
    widthMm: style.width ?? 1,
    dash: style.dash ?? [],
    cap: style.cap ?? 'butt',
    join: style.join ?? 'miter',
    opacity: style.opacity ?? 1,
    fillOpacity: style.fillOpacity ?? 1,
  };
}

const painted = (colour: string): string | undefined => (colour === 'none' ? undefined : colour);

function isSeen(commands: readonly PathCommand[], look: PathLook, window: Bounds): boolean {
  const points = commands.flatMap((command) => (command.kind === 'close' ? [] : [command.to]));
  if (points.length === 0) return false;
  const box = grow(boundsOfPoints(points), look.stroke === undefined ? 0 : look.widthMm / 2);
  // Asked this way round, what is not a number counts as seen and is refused when it is drawn.
  const beside = box.maxX < window.minX || window.maxX < box.minX || box.maxY < window.minY || window.maxY < box.minY;
  return !beside;
}

function drawText(place: Place, at: Point, what: { readonly text: string; readonly style: TextStyle }): void {
  const { text, style } = what;
  if (!overlaps(textBox(text, at, style), place.window)) return;
  const look = {
    sizeMm: style.sizeMm,
    face: style.bold === true ? 'bold' : 'regular',
    colour: style.colour ?? '#000000',
    anchor: style.anchor ?? 'start',
    upwards: style.upright === false,
    rimMm: 0,
  } as const;
  const { halo } = style;
  if (halo !== undefined)
    place.page.words(place.toPage(at), text, { ...look, colour: halo, rimMm: style.sizeMm * 0.3 });
  place.page.words(place.toPage(at), text, look);
}

const corners = ({ minX, minY, maxX, maxY }: Bounds): readonly Point[] => [
  { x: minX, y: minY },
  { x: maxX, y: minY },
  { x: maxX, y: maxY },
  { x: minX, y: maxY },
];
