import type { Point } from '@sheetwave/geometry';
import { runClient } from './client.ts';
import { withFile } from './dxf-clients.ts';

/** ISO 32000-1 section 8.3.2.3: 72 units to the inch of 25.4 mm. */
const UNIT_MM = 25.4 / 72;

export interface Box {
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

/** What MuPDF draws, in mm from the upper left corner of the page, y down. */
export interface DrawnPath {
  readonly kind: 'stroke' | 'fill';
  /** Shade of grey, 0 black to 1 white. */
  readonly shade: number;
  /** Ends of all pieces, and the middles of curved ones. */
  readonly rings: readonly (readonly Point[])[];
  readonly curved: boolean;
}

export interface DrawnPage {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly paths: readonly DrawnPath[];
  readonly texts: readonly { readonly words: string; readonly at: Point }[];
  /** The window that drawing was held to, or undefined when nothing was. */
  readonly clip: Box | undefined;
}

/** Every page of a PDF as MuPDF's interpreter draws it. Colours are refused unless they are allowed: their shade is then that of red. */
export function tracePdf(bytes: Uint8Array, allow: { readonly colours?: true } = {}): readonly DrawnPage[] {
  return withFile('pages.pdf', bytes, (file) => {
    const ended = runClient('mutool', ['trace', file, '1-N']);
    if (ended.status !== 0 || /error|warning/.test(ended.stderr)) throw new Error(`mutool: ${ended.stderr}`);
    return [...ended.stdout.matchAll(/<page ([^>]*)>([\s\S]*?)<\/page>/g)].map(([, head = '', body = '']) =>
      pageOf(head, body, allow.colours === true),
    );
  });
}

function pageOf(head: string, body: string, colours: boolean): DrawnPage {
  const [left = 0, top = 0, right = 0, bottom = 0] = numbers(attribute(head, 'mediabox'));
  const paths = [...body.matchAll(/<(stroke|fill)_path ([^>]*)>([\s\S]*?)<\/\1_path>/g)];
  const texts = [...body.matchAll(/<fill_text ([^>]*)>([\s\S]*?)<\/fill_text>/g)];
  const clip = /<clip_path ([^>]*)>([\s\S]*?)<\/clip_path>/.exec(body);
  return {
    widthMm: (right - left) * UNIT_MM,
    heightMm: (bottom - top) * UNIT_MM,
    paths: paths.map(([, kind, look = '', steps = '']) =>
      pathOf(kind === 'fill' ? 'fill' : 'stroke', { look, steps, colours }),
    ),
    texts: texts.map(([, look = '', glyphs = '']) => textOf(look, glyphs)),
    clip: clip === null ? undefined : boxOf(ringsOf(clip[1] ?? '', clip[2] ?? '').flat()),
  };
}

function pathOf(
  kind: DrawnPath['kind'],
  { look, steps, colours }: { readonly look: string; readonly steps: string; readonly colours: boolean },
): DrawnPath {
  const shades = numbers(attribute(look, 'color'));
  if (!colours && new Set(shades).size > 1) throw new Error(`a colour in a drawing for a printer: ${shades.join(' ')}`);
  return { kind, shade: shades[0] ?? Number.NaN, rings: ringsOf(look, steps), curved: steps.includes('<curveto') };
}

function ringsOf(look: string, steps: string): readonly (readonly Point[])[] {
  const place = placer(look);
  const rings: Point[][] = [];
  let raw: Point = { x: 0, y: 0 };
  for (const [, name, rest = ''] of steps.matchAll(/<(moveto|lineto|curveto) ([^>]*)\/>/g)) {
    const last = name === 'curveto' ? '3' : '';
    const to = { x: value(rest, `x${last}`), y: value(rest, `y${last}`) };
    if (name === 'moveto') rings.push([]);
    if (name === 'curveto') rings.at(-1)?.push(place(middle(raw, rest, to)));
    rings.at(-1)?.push(place(to));
    raw = to;
  }
  return rings;
}

/** The cubic at one half (Bernstein's weights 1, 3, 3, 1 over 8). */
function middle(from: Point, rest: string, to: Point): Point {
  const half = (axis: 'x' | 'y') =>
    (from[axis] + 3 * value(rest, `${axis}1`) + 3 * value(rest, `${axis}2`) + to[axis]) / 8;
  return { x: half('x'), y: half('y') };
}

function textOf(look: string, glyphs: string): { readonly words: string; readonly at: Point } {
  const all = [...glyphs.matchAll(/<g unicode="([^"]*)"[^>]* x="([^"]*)" y="([^"]*)"/g)];
  const [first] = all;
  const words = all
    .map(([, sign = '']) => sign.replace('&lt;', '<').replace('&gt;', '>').replace('&amp;', '&'))
    .join('');
  return { words, at: placer(look)({ x: Number(first?.[2]), y: Number(first?.[3]) }) };
}

function placer(look: string): (point: Point) => Point {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = numbers(attribute(look, 'transform'));
  return ({ x, y }) => ({ x: (a * x + c * y + e) * UNIT_MM, y: (b * x + d * y + f) * UNIT_MM });
}

const attribute = (tag: string, name: string): string => new RegExp(`(?:^| )${name}="([^"]*)"`).exec(tag)?.[1] ?? '';
const value = (tag: string, name: string): number => Number(attribute(tag, name));
const numbers = (text: string): readonly number[] => text.split(' ').map(Number);

export function boxOf(points: readonly Point[]): Box {
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  return { minX: Math.min(...xs), maxX: Math.max(...xs), minY: Math.min(...ys), maxY: Math.max(...ys) };
}

export interface Circle {
  readonly at: Point;
  readonly diameterMm: number;
  readonly shade: number;
}

/** Stroked paths that are round to within 2 µm. */
export function circlesOf(page: DrawnPage): readonly Circle[] {
  return page.paths.flatMap(({ kind, rings, curved, shade }) => {
    const [ring] = rings;
    if (kind !== 'stroke' || !curved || ring === undefined || rings.length !== 1) return [];
    const box = boxOf(ring);
    const at = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
    const radius = (box.maxX - box.minX) / 2;
    const round = ring.every(({ x, y }) => Math.abs(Math.hypot(x - at.x, y - at.y) - radius) < 0.002);
    return round ? [{ at, diameterMm: 2 * radius, shade }] : [];
  });
}
