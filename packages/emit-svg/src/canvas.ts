import type { Pen, Style, TextStyle } from '@sheetwave/drawings';
import { FONT_FAMILY, heightOf, widthOf } from '@sheetwave/drawings';
import type { Bounds, EmittedFile, FileKind, Point } from '@sheetwave/geometry';
import { registerWindow, SVG, type Element as SvgElement } from '@svgdotjs/svg.js';
import { createSVGWindow } from 'svgdom';
import { fixed } from './number.ts';
import { pathData, type ToPage } from './path-data.ts';

export interface Canvas extends Pen {
  /** The finished file, UTF-8, one element a line, ending with a newline. */
  bytes(): Uint8Array;
}

/**
 * An empty page. One unit of the file is one millimetre of paper (SVG 1.1 section 7.7: width and height in mm, viewBox the
 * same numbers), and the lower left corner of `page` in drawing coordinates is the lower left corner of the paper.
 * The only file that touches the SVG library: its window is global state, so every page makes and registers its own.
 */
export function openCanvas(sheet: { readonly page: Bounds; readonly title: string; readonly about: string }): Canvas {
  const window = createSVGWindow();
  registerWindow(window, window.document);
  const { page } = sheet;
  const root = SVG(window.document.documentElement) as unknown as SvgElement;
  root.attr({
    width: `${fixed(widthOf(page))}mm`,
    height: `${fixed(heightOf(page))}mm`,
    viewBox: `0 0 ${fixed(widthOf(page))} ${fixed(heightOf(page))}`,
    'font-family': FONT_FAMILY,
  });
  addWords(root, { tag: 'title', words: sheet.title });
  addWords(root, { tag: 'desc', words: sheet.about });
  const toPage: ToPage = (point) => ({ x: point.x - page.minX, y: page.maxY - point.y });
  return Object.assign(penOn(root, toPage), { bytes: () => serialise(root) });
}

/** A file of the pack from a finished page. */
export function fileOf(canvas: Canvas, about: { path: string; kind: FileKind; part: string | undefined }): EmittedFile {
  return { path: about.path, kind: about.kind, part: about.part, bytes: canvas.bytes() };
}

type Attributes = Record<string, string>;

interface Maker {
  element(name: string): SvgElement;
}

function add(parent: SvgElement, name: string, attributes: Attributes): SvgElement {
  return (parent as unknown as Maker).element(name).attr(attributes);
}

function addWords(parent: SvgElement, piece: { tag: string; words: string; attributes?: Attributes }): void {
  add(parent, piece.tag, piece.attributes ?? {}).node.textContent = printable(piece.words);
}

function penOn(parent: SvgElement, toPage: ToPage): Pen {
  const path = (data: string, style: Style & { readonly id?: string }) => {
    if (data !== '') add(parent, 'path', { ...idOf(style), d: data, ...paint(style) });
  };
  return {
    group: (id, style = {}) => penOn(add(parent, 'g', { ...(id === '' ? {} : { id }), ...paint(style) }), toPage),
    line: (from, to, style = {}) => path(openData([from, to], toPage), style),
    lines: (pairs, style = {}) => path(pairs.map((pair) => openData(pair, toPage)).join(''), style),
    polyline: (points, style = {}) => path(openData(points, toPage), style),
    polygon: (points, style = {}) => path(closedData(points, toPage), style),
    polygons: (rings, style = {}) => path(rings.map((ring) => closedData(ring, toPage)).join(''), evenOdd(style)),
    circle: (centre, radiusMm, style = {}) => addCircle(parent, toPage(centre), { radiusMm, style }),
    box: (box, style = {}) => path(closedData(corners(box), toPage), style),
    contours: (contours, style = {}) => {
      const [only] = contours;
      if (contours.length === 1 && only?.kind === 'circle')
        addCircle(parent, toPage(only.centre), { radiusMm: only.radiusMm, style });
      else path(pathData(contours, toPage), evenOdd(style));
    },
    text: (at, text, style) => addText(parent, toPage(at), { text, style }),
  };
}

function addCircle(
  parent: SvgElement,
  centre: Point,
  what: { readonly radiusMm: number; readonly style: Style & { readonly id?: string } },
): void {
  const place = { cx: fixed(centre.x), cy: fixed(centre.y), r: fixed(what.radiusMm) };
  add(parent, 'circle', { ...idOf(what.style), ...place, ...paint(what.style) });
}

/** x and y as attributes: the library's own placing of text measures the font and puts the line elsewhere. */
function addText(parent: SvgElement, at: Point, what: { readonly text: string; readonly style: TextStyle }): void {
  const { text, style } = what;
  const place = { x: fixed(at.x), y: fixed(at.y) };
  const attributes: Attributes = { ...idOf(style), ...place, 'font-size': fixed(style.sizeMm) };
  attributes.stroke = 'none';
  attributes.fill = style.colour ?? '#000000';
  if (style.anchor !== undefined && style.anchor !== 'start') attributes['text-anchor'] = style.anchor;
  if (style.bold === true) attributes['font-weight'] = 'bold';
  if (style.upright === false) attributes.transform = `rotate(-90 ${place.x} ${place.y})`;
  if (style.halo !== undefined)
    addWords(parent, { tag: 'text', words: text, attributes: { ...attributes, ...haloOf(style.halo, style.sizeMm) } });
  addWords(parent, { tag: 'text', words: text, attributes });
}

/** The rim is a second text below the first: `paint-order` is SVG 2 and not every reader follows it. */
function haloOf(colour: string, sizeMm: number): Attributes {
  const rim = { stroke: colour, fill: colour, 'stroke-width': fixed(sizeMm * 0.3), 'stroke-linejoin': 'round' };
  return { class: 'rim', ...rim };
}

function idOf(named: { readonly id?: string }): Attributes {
  return named.id === undefined ? {} : { id: named.id };
}

const evenOdd = <T extends Style>(style: T): T & { readonly evenOdd: true } => ({ ...style, evenOdd: true });

function paint(style: Style & { readonly evenOdd?: boolean }): Attributes {
  const out: Attributes = {};
  if (style.stroke !== undefined) out.stroke = style.stroke;
  if (style.width !== undefined) out['stroke-width'] = fixed(style.width);
  if (style.fill !== undefined) out.fill = style.fill;
  if (style.opacity !== undefined) out.opacity = fixed(style.opacity);
  if (style.fillOpacity !== undefined) out['fill-opacity'] = fixed(style.fillOpacity);
  if (style.dash !== undefined) out['stroke-dasharray'] = style.dash.map(fixed).join(' ');
  if (style.cap !== undefined) out['stroke-linecap'] = style.cap;
  if (style.join !== undefined) out['stroke-linejoin'] = style.join;
  if (style.evenOdd === true && style.fill !== 'none') out['fill-rule'] = 'evenodd';
  return out;
}

function openData(points: readonly Point[], toPage: ToPage): string {
  return points
    .map(toPage)
    .map((p, index) => `${index === 0 ? 'M' : 'L'}${fixed(p.x)} ${fixed(p.y)}`)
    .join('');
}

const closedData = (points: readonly Point[], toPage: ToPage): string =>
  points.length === 0 ? '' : `${openData(points, toPage)}Z`;

function corners(box: Bounds): readonly Point[] {
  return [
    { x: box.minX, y: box.minY },
    { x: box.maxX, y: box.minY },
    { x: box.maxX, y: box.maxY },
    { x: box.minX, y: box.maxY },
  ];
}

/** XML 1.0 section 2.2 leaves most control characters out of a document altogether: refused, never dropped in silence. */
function printable(text: string): string {
  const odd = /\p{Cc}|\p{Cs}|\ufffe|\uffff/u;
  const found = odd.exec(text);
  if (found === null) return text;
  const code = found[0].charCodeAt(0).toString(16).padStart(4, '0');
  throw new Error(`text ${JSON.stringify(text)} has the character U+${code}, which an SVG file cannot hold`);
}

function serialise(root: SvgElement): Uint8Array {
  const lines = root.svg().replaceAll('><', '>\n<');
  return new TextEncoder().encode(`<?xml version="1.0" encoding="UTF-8"?>\n${lines}\n`);
}
