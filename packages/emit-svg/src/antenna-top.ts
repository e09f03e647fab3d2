import {
  type Assembly,
  type Bounds,
  type Contour,
  type Element,
  type EmittedFile,
  moveContour,
  type Part,
  type Placement,
  type Point,
  placeContour,
  placePoint,
} from '@sheetwave/geometry';
import { arrowHead } from './arrow.ts';
import { around, grow, union } from './box.ts';
import { type Callout, calloutsBox, drawCallouts, type PlacedCallout, placeCallouts } from './callouts.ts';
import { type Canvas, fileOf, openCanvas, type Pen } from './canvas.ts';
import { type Dimension, dimensionBox, drawDimension } from './dimension.ts';
import { hexagon } from './hexagon.ts';
import { plain } from './number.ts';
import { ACCENT, blend, INK, PAPER, TONES, tonesOf } from './palette.ts';
import { drawStrokedRod } from './rod-stroke.ts';
import { scaleContour, scalePoint } from './scale.ts';
import { sizeWords, timesWords } from './stock-words.ts';
import { textBox } from './text-size.ts';

/** Longer side of the reflector on the page. */
const DRAWN_MM = 150;
const EDGE = 0.25;

/** The finished antenna as seen from in front, with names, sizes and pitches: `pictures/antenna-top.svg`. */
export function antennaTop(assembly: Assembly): EmittedFile {
  const view = viewOf(assembly);
  const callouts = placeCallouts(calloutsOf(view), view.reflector.maxX + 16);
  const dimensions = dimensionsOf(view);
  const canvas = openCanvas({
    page: pageOf(view, callouts, dimensions),
    title: `${assembly.design.name}: the antenna seen from the front`,
    about: `Revision ${assembly.design.revision}. Dimensions in mm; not a template.`,
  });
  drawPicture(canvas, { view, callouts, dimensions });
  return fileOf(canvas, { path: 'pictures/antenna-top.svg', kind: 'picture-svg', part: undefined });
}

interface View {
  readonly assembly: Assembly;
  /** Page mm for one mm of antenna. */
  readonly scale: number;
  /** The reflector on the page. */
  readonly reflector: Bounds;
  readonly parts: ReadonlyMap<string, Part>;
}

function viewOf(assembly: Assembly): View {
  const { widthMm, heightMm } = assembly.reflector;
  const scale = DRAWN_MM / Math.max(widthMm, heightMm);
  const half = { x: (widthMm / 2) * scale, y: (heightMm / 2) * scale };
  return {
    assembly,
    scale,
    reflector: { minX: -half.x, maxX: half.x, minY: -half.y, maxY: half.y },
    parts: new Map(assembly.parts.map((part) => [part.id, part])),
  };
}

const titleAt = (view: View): Point => ({
  x: view.reflector.minX,
  y: view.reflector.maxY + (view.assembly.design.lattice.columns > 1 ? 22 : 14),
});

function pageOf(view: View, callouts: readonly PlacedCallout[], dimensions: readonly Dimension[]): Bounds {
  const title = textBox(view.assembly.design.name, titleAt(view), { sizeMm: 6, bold: true });
  const column = calloutsBox(callouts) ?? view.reflector;
  const arrow = polarisationBox(view);
  const all = [title, column, arrow, ...dimensions.map(dimensionBox)];
  const box = grow(all.reduce(union, view.reflector), 8);
  return {
    minX: Math.floor(box.minX),
    minY: Math.floor(box.minY),
    maxX: Math.ceil(box.maxX),
    maxY: Math.ceil(box.maxY),
  };
}

function drawPicture(
  canvas: Canvas,
  what: { readonly view: View; readonly callouts: readonly PlacedCallout[]; readonly dimensions: readonly Dimension[] },
): void {
  const { view } = what;
  canvas.box(pageOf(view, what.callouts, what.dimensions), { fill: PAPER, stroke: 'none', id: 'paper' });
  const { design } = view.assembly;
  const at = titleAt(view);
  canvas.text(at, design.name, { sizeMm: 6, bold: true, colour: INK });
  canvas.text({ x: at.x, y: at.y - 5 }, `seen from the front, revision ${design.revision}, dimensions in mm`, {
    sizeMm: 2.8,
    colour: '#5d564c',
  });
  drawParts(canvas, view);
  drawFeedPoints(canvas, view);
  const lines = canvas.group('dimensions');
  for (const dimension of what.dimensions) drawDimension(lines, dimension);
  drawPolarisation(canvas, view);
  drawCallouts(canvas, what.callouts);
}

/** From the back to the front, so that what is nearer covers what is farther. */
function drawParts(canvas: Canvas, view: View): void {
  const ordered = [...view.assembly.placements].sort((a, b) => heightKey(view, a) - heightKey(view, b));
  const byLevel = canvas.group('antenna', { stroke: INK, width: EDGE, join: 'round' });
  for (const placement of ordered) {
    const part = view.parts.get(placement.part);
    if (part !== undefined) drawPart(byLevel, view, { part, placement });
  }
}

/** Bought pieces sort by their lowest point; a long screw from the back must not cover the patch in front of it. */
function heightKey(view: View, placement: Placement): number {
  const part = view.parts.get(placement.part);
  if (part?.form === 'bought' && part.item.kind === 'screw' && placement.at.z > 0)
    return placement.at.z + part.item.lengthMm;
  return placement.at.z;
}

interface Piece {
  readonly part: Part;
  readonly placement: Placement;
}

function drawPart(pen: Pen, view: View, piece: Piece): void {
  const { part, placement } = piece;
  const centre = scalePoint(placement.at, view.scale);
  switch (part.form) {
    case 'plate':
    case 'board':
      drawFlat(pen, view, { part, placement });
      return;
    case 'rod':
      drawStrokedRod(
        pen,
        part.corners.map((corner) => scalePoint(placePoint(corner, placement), view.scale)),
        {
          widthMm: part.rod.diameterMm * view.scale,
          tones: tonesOf(part.rod.material.name),
        },
      );
      return;
    case 'tube': {
      const ends = [
        { x: 0, y: 0 },
        { x: part.lengthMm, y: 0 },
      ].map((end) => scalePoint(placePoint(end, placement), view.scale));
      drawStrokedRod(pen, ends, { widthMm: part.tube.outerMm * view.scale, tones: tonesOf(part.tube.material.name) });
      return;
    }
    case 'printed-spacer':
      pen.circle(centre, (part.outerMm / 2) * view.scale, { fill: TONES.plastic.mid });
      return;
    case 'bought':
      drawBought(pen, view, { part, placement });
      return;
  }
}

function drawFlat(
  pen: Pen,
  view: View,
  piece: { readonly part: Extract<Part, { form: 'plate' | 'board' }>; readonly placement: Placement },
): void {
  const { part, placement } = piece;
  const { scale } = view;
  const toPage = (contour: Contour): Contour => scaleContour(placeContour(contour, placement), scale);
  const holes = part.outline.holes.map(
    (hole): Contour => ({ kind: 'circle', centre: hole.centre, radiusMm: hole.diameterMm / 2 }),
  );
  const outer = toPage(part.outline.outer);
  const front = placement.layer !== undefined && placement.layer > 0;
  if (placement.layer !== undefined) drawShadow(pen, outer, placement.at.z * scale);
  const tones = part.form === 'plate' ? tonesOf(part.sheet.material.name) : TONES.laminate;
  const fill = part.role === 'reflector' ? tones.light : front ? blend(tones.light, PAPER, 0.35) : tones.mid;
  const contours = [outer, ...[...part.outline.cutouts, ...holes].map(toPage)];
  pen.contours(contours, { fill, fillOpacity: front ? 0.62 : 1, width: EDGE });
  if (part.form === 'board') drawCopper(pen, { part, toPage, base: fill, front });
}

function drawCopper(
  pen: Pen,
  board: {
    readonly part: Extract<Part, { form: 'board' }>;
    readonly toPage: (contour: Contour) => Contour;
    readonly base: string;
    readonly front: boolean;
  },
): void {
  const pieces = board.part.copper.top.length > 0 ? board.part.copper.top : board.part.copper.bottom;
  for (const piece of pieces) {
    const fill = piece.polarity === 'clear' ? board.base : TONES.copper.light;
    pen.contours([board.toPage(piece.contour)], { fill, fillOpacity: board.front ? 0.7 : 1, stroke: 'none' });
  }
  for (const hole of board.part.outline.holes)
    pen.contours([board.toPage({ kind: 'circle', centre: hole.centre, radiusMm: hole.diameterMm / 2 })], {
      fill: PAPER,
      width: 0.15,
    });
}

/** A soft edge toward the lower right, longer the higher the sheet stands: the depth cue. */
function drawShadow(pen: Pen, outer: Contour, heightMm: number): void {
  const reach = Math.min(2.4, 0.25 * heightMm + 0.3);
  for (const part of [1, 0.5])
    pen.contours([moveContour(outer, { x: reach * part, y: -reach * part })], {
      fill: '#3a2c10',
      fillOpacity: 0.12,
      stroke: 'none',
    });
}

function drawBought(
  pen: Pen,
  view: View,
  piece: { readonly part: Extract<Part, { form: 'bought' }>; readonly placement: Placement },
): void {
  const { item } = piece.part;
  const centre = scalePoint(piece.placement.at, view.scale);
  if (piece.placement.at.z < 0 && item.kind !== 'coax') return;
  switch (item.kind) {
    case 'spacer':
    case 'nut':
      pen.polygon(hexagon(centre, item.acrossMm * view.scale), { fill: tonesOf(item.material.name).mid });
      return;
    case 'washer':
      pen.circle(centre, (item.outerMm / 2) * view.scale, { fill: tonesOf(item.material.name).light });
      return;
    case 'screw':
      pen.circle(centre, (item.headDiameterMm / 2) * view.scale, { fill: tonesOf(item.material.name).mid });
      pen.lines(slot(centre, item.headDiameterMm * 0.25 * view.scale), { width: EDGE });
      return;
    case 'coax':
      pen.circle(centre, (item.dielectricMm / 2) * view.scale, { fill: PAPER });
      pen.circle(centre, Math.max(0.3, (item.pinMm / 2) * view.scale), { fill: TONES.steel.dark, stroke: 'none' });
      return;
    case 'connector':
      return;
  }
}

function slot(centre: Point, half: number): readonly (readonly [Point, Point])[] {
  return [
    [
      { x: centre.x - half, y: centre.y },
      { x: centre.x + half, y: centre.y },
    ],
    [
      { x: centre.x, y: centre.y - half },
      { x: centre.x, y: centre.y + half },
    ],
  ];
}

function drawFeedPoints(pen: Pen, view: View): void {
  const group = pen.group('feed-points', { fill: ACCENT, stroke: PAPER, width: 0.15 });
  const radius = Math.min(0.9, Math.max(0.35, 0.7 * view.scale));
  for (const element of view.assembly.elements) group.circle(scalePoint(element.feedPoint, view.scale), radius);
}

function dimensionsOf(view: View): readonly Dimension[] {
  const { reflector, scale, assembly } = view;
  const { lattice } = assembly.design;
  const { widthMm, heightMm } = assembly.reflector;
  const size = (from: number, to: number) => ({ from, to });
  const out: Dimension[] = [
    {
      axis: 'x',
      ...size(reflector.minX, reflector.maxX),
      edge: reflector.minY,
      at: reflector.minY - 9,
      text: plain(widthMm),
    },
    {
      axis: 'y',
      ...size(reflector.minY, reflector.maxY),
      edge: reflector.minX,
      at: reflector.minX - 17,
      text: plain(heightMm),
    },
  ];
  const first = assembly.elements[0];
  if (first === undefined) return out;
  const at = scalePoint(first.centre, scale);
  const top = -at.y;
  if (lattice.columns > 1)
    out.push({
      axis: 'x',
      ...size(at.x, at.x + lattice.columnPitchMm * scale),
      edge: top,
      at: reflector.maxY + 5,
      text: plain(lattice.columnPitchMm),
    });
  if (lattice.rows > 1)
    out.push({
      axis: 'y',
      ...size(at.y, at.y + lattice.rowPitchMm * scale),
      edge: at.x,
      at: reflector.minX - 7,
      text: plain(lattice.rowPitchMm),
    });
  return out;
}

const POLARISATION_SIZE = 2.8;

function polarisationPlace(view: View): { readonly centre: Point; readonly words: string } {
  const { orientation } = view.assembly.design.lattice;
  return { centre: { x: view.reflector.minX - 30, y: view.reflector.maxY - 12 }, words: `E field ${orientation}` };
}

function wordsUnderArrow(view: View, centre: Point): Point {
  return { x: centre.x, y: centre.y - (view.assembly.design.lattice.orientation === 'vertical' ? 15 : 6) };
}

function polarisationBox(view: View): Bounds {
  const { centre, words } = polarisationPlace(view);
  const text = textBox(words, wordsUnderArrow(view, centre), { sizeMm: POLARISATION_SIZE, anchor: 'middle' });
  return union(around(centre, 12), text);
}

function drawPolarisation(pen: Pen, view: View): void {
  const { centre, words } = polarisationPlace(view);
  const upright = view.assembly.design.lattice.orientation === 'vertical';
  const direction = upright ? { x: 0, y: 1 } : { x: 1, y: 0 };
  const end = (sign: number): Point => ({
    x: centre.x + sign * direction.x * 10,
    y: centre.y + sign * direction.y * 10,
  });
  const back = (sign: number): Point => ({
    x: centre.x + sign * direction.x * 8,
    y: centre.y + sign * direction.y * 8,
  });
  const group = pen.group('polarisation', { stroke: ACCENT, width: 0.5, fill: 'none' });
  group.line(back(-1), back(1));
  for (const sign of [-1, 1])
    arrowHead(group, end(sign), {
      direction: { x: direction.x * sign, y: direction.y * sign },
      lengthMm: 3,
      colour: ACCENT,
    });
  group.text(wordsUnderArrow(view, centre), words, { sizeMm: POLARISATION_SIZE, anchor: 'middle', colour: INK });
}

function calloutsOf(view: View): readonly Callout[] {
  return [...patchCallouts(view), ...feedCallouts(view), ...harnessCallouts(view), ...plateCallouts(view)];
}

/** Elements of the rightmost column from the top down: labels point at different ones, so that leaders stay apart. */
function rightElements(view: View): readonly Element[] {
  const column = Math.max(...view.assembly.elements.map((element) => element.column));
  return view.assembly.elements.filter((element) => element.column === column).sort((a, b) => b.row - a.row);
}

function elementFor(view: View, index: number): Element | undefined {
  const right = rightElements(view);
  return right[Math.min(right.length - 1, index)];
}

function patchCallouts(view: View): readonly Callout[] {
  const { assembly, scale } = view;
  return [...assembly.design.layers.entries()].reverse().flatMap(([layer, { name }], index) => {
    const element = elementFor(view, index);
    const place = assembly.placements.find((one) => one.layer === layer && view.parts.get(one.part)?.form !== 'bought');
    const part = place === undefined ? undefined : view.parts.get(place.part);
    const height = assembly.layerHeights[layer];
    if (element === undefined || height === undefined) return [];
    const title = part?.name ?? `${name} patch`;
    const size = part === undefined ? [] : [`${sizeWords(part)}`];
    const shape = assembly.design.layers[layer]?.shape;
    const extent =
      shape?.kind === 'circle'
        ? { x: shape.diameterMm, y: shape.diameterMm }
        : { x: shape?.widthMm ?? 0, y: shape?.lengthMm ?? 0 };
    const turned = assembly.design.lattice.orientation === 'vertical' ? extent : { x: extent.y, y: extent.x };
    const round = shape?.kind === 'circle' ? Math.SQRT1_2 : 1;
    const corner = {
      x: element.centre.x + (turned.x / 2) * round * 0.9,
      y: element.centre.y + (turned.y / 2) * round * (0.85 - 0.3 * index),
    };
    return [
      {
        id: `layer-${layer}`,
        anchor: scalePoint(corner, scale),
        title,
        lines: [...size, `${plain(height.undersideMm)} mm above the reflector, ${assembly.elements.length} needed`],
      },
    ];
  });
}

function feedCallouts(view: View): readonly Callout[] {
  const element = elementFor(view, view.assembly.design.layers.length);
  if (element === undefined) return [];
  const { feed } = view.assembly.design;
  const words =
    feed.kind === 'probe'
      ? `pin Ø ${plain(feed.probeDiameterMm)} mm, ${plain(feed.fromEdgeMm)} mm from the edge`
      : `${feed.kind} feed`;
  return [{ id: 'feed-point', anchor: scalePoint(element.feedPoint, view.scale), title: 'feed point', lines: [words] }];
}

function harnessCallouts(view: View): readonly Callout[] {
  const { assembly, scale } = view;
  const { coax, connector } = assembly.design.coax;
  const entry = connector?.mount === 'board' ? connector.label : coax.label;
  const title = connector?.mount === 'board' ? 'connector' : 'coax';
  const out: Callout[] = [{ id: 'coax', anchor: scalePoint(assembly.coaxPoint, scale), title, lines: [entry] }];
  const run = assembly.harness.flatMap((split) => split.arms.flat()).sort((a, b) => rightmost(b) - rightmost(a))[0];
  if (run !== undefined) {
    const kind = assembly.design.harness.kind;
    const middle = { x: run.from.x + (run.to.x - run.from.x) * 0.35, y: run.from.y + (run.to.y - run.from.y) * 0.35 };
    const height =
      'heightMm' in assembly.design.harness
        ? [`${plain(assembly.design.harness.heightMm)} mm above the reflector`]
        : [];
    out.push({ id: 'harness', anchor: scalePoint(middle, scale), title: `${kind} harness`, lines: height });
  }
  return out;
}

const rightmost = (run: { readonly from: Point; readonly to: Point }): number => Math.max(run.from.x, run.to.x);

function plateCallouts(view: View): readonly Callout[] {
  const { assembly, scale, reflector } = view;
  const part = view.parts.get('reflector');
  const out: Callout[] = [];
  if (part !== undefined)
    out.push({
      id: 'reflector',
      anchor: { x: reflector.maxX - 2, y: reflector.minY + (reflector.maxY - reflector.minY) * 0.08 },
      title: 'reflector',
      lines: [sizeWords(part)],
    });
  const fixing = view.assembly.elements.length > 0 ? elementFor(view, 99) : undefined;
  const screw = assembly.parts.find((one) => one.form === 'bought' && one.item.kind === 'spacer');
  if (fixing !== undefined && screw !== undefined)
    out.push({
      id: 'fixing',
      anchor: scalePoint(fixing.centre, scale),
      title: 'fixing',
      lines: [screw.name, timesWords(screw.quantity)],
    });
  return out;
}
