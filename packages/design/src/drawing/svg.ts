import { type Edge, requireFew, type Strokes } from './edge.ts';
import { DrawingFault } from './fault.ts';
import { type Matrix, matrix, readTransform, times } from './matrix.ts';
import { readPath } from './svg-path.ts';
import { type OpenTag, walkTags } from './svg-tags.ts';
import { type DrawingUnit, unitOf } from './units.ts';

/** CSS lengths that are the same everywhere, in mm (CSS Values and Units, 5.2; confirmed). A pixel is left out: programs draw it at different sizes. */
const REAL_MM: Readonly<Record<string, number>> = { mm: 1, cm: 10, Q: 0.25, in: 25.4, pt: 25.4 / 72, pc: 25.4 / 6 };
/** One user unit without a viewBox: a CSS pixel, 1/96 inch. */
const PIXEL_MM = 25.4 / 96;

/** Elements whose contents are not drawn where they stand. */
const UNSEEN = new Set([
  'defs',
  'metadata',
  'title',
  'desc',
  'style',
  'script',
  'symbol',
  'clipPath',
  'mask',
  'marker',
  'pattern',
]);
const DRAWN = new Set(['svg', 'g', 'path', 'a']);

const NUMBER = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?`;

/**
 * The strokes of an SVG file: its path elements, through the transforms around them (SVG 1.1, chapters 7 and 8). y turns upward.
 * Unseen elements are passed over; any other shape is a fault, because leaving it out would change the part.
 */
export function svgStrokes(text: string, given: DrawingUnit | undefined): Strokes {
  const loops: (readonly Edge[])[] = [];
  const edges: Edge[] = [];
  let count = 0;
  let scale: number | undefined;
  walkTags(text, (tag, around) => {
    if (around.length === 0) scale = scaleOf(tag, given);
    const name = localName(tag.name);
    if (scale === undefined || [...around, tag].some(isUnseen)) return;
    requireDrawn(name, around);
    if (name !== 'path') return;
    for (const run of readPath(tag.attributes.get('d') ?? '', matrixOf([...around, tag], scale))) {
      if (run.closed) loops.push(run.edges);
      else edges.push(...run.edges);
      count += run.edges.length;
      requireFew(count);
    }
  });
  if (scale === undefined)
    throw new DrawingFault('not-svg', 'is not an SVG file: it has no element', 'save the drawing as plain SVG');
  return { loops, edges, circles: [] };
}

const localName = (name: string): string => (name.startsWith('svg:') ? name.slice(4) : name);

function isUnseen({ name, attributes }: OpenTag): boolean {
  const local = localName(name);
  if (local.includes(':') || UNSEEN.has(local)) return true;
  return attributes.get('display') === 'none' || /(?:^|;)\s*display\s*:\s*none/.test(attributes.get('style') ?? '');
}

function requireDrawn(name: string, around: readonly OpenTag[]): void {
  if (DRAWN.has(name) && (name !== 'svg' || around.length === 0)) return;
  const allowed = `holds <${name.slice(0, 30)}>, which is not read`;
  throw new DrawingFault(
    'drawing-unsupported',
    allowed,
    'turn every object into a path, and leave out pictures and words',
  );
}

/** Millimetres in one user unit of the root: its width over that of its viewBox. */
function scaleOf(root: OpenTag, given: DrawingUnit | undefined): number {
  if (localName(root.name) !== 'svg')
    throw new DrawingFault(
      'not-svg',
      'is not an SVG file: it does not begin with <svg>',
      'save the drawing as plain SVG',
    );
  return unitOf(ownUnit(root), given);
}

function ownUnit({ attributes }: OpenTag): { readonly mm: number; readonly words: string } | undefined {
  const [width, height] = [realLength(attributes.get('width')), realLength(attributes.get('height'))];
  if (width === undefined || height === undefined) return undefined;
  const box = attributes.get('viewBox');
  if (box === undefined) return { mm: PIXEL_MM, words: 'pixels of 1/96 inch' };
  const [, , across, up] = box
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  if (across === undefined || up === undefined || !(across > 0) || !(up > 0))
    throw new DrawingFault('not-svg', 'has a viewBox that cannot be read', 'save the drawing as plain SVG');
  const mm = width / across;
  if (Math.abs(height / up / mm - 1) > 1e-3)
    throw new DrawingFault(
      'units-unknown',
      'has a width, height and viewBox of different proportions',
      'give the page the proportions of its viewBox',
    );
  return { mm, words: `units of ${Number(mm.toPrecision(6))} mm` };
}

function realLength(text: string | undefined): number | undefined {
  const found = new RegExp(`^\\s*(${NUMBER})([A-Za-z]+)\\s*$`).exec(text ?? '');
  const unit = REAL_MM[found?.[2] ?? ''];
  const length = Number(found?.[1]);
  return unit !== undefined && length > 0 ? length * unit : undefined;
}

/** From the user units of an element to mm with y upward. */
function matrixOf(tags: readonly OpenTag[], scale: number): Matrix {
  return tags
    .flatMap((tag) => tag.attributes.get('transform') ?? [])
    .map(readTransform)
    .reduce(times, matrix(scale, 0, 0, -scale, 0, 0));
}
