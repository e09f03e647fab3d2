import {
  type Assembly,
  type Bounds,
  boundsOfPoints,
  type EmittedFile,
  type Point,
  type Point3,
  shapeExtent,
} from '@sheetwave/geometry';
import { depthOf, drawPrism, heightDrawnAt, onPage, type Prism, project, type Stage } from './axonometry.ts';
import { around, grow, heightOf, union, widthOf } from './box.ts';
import { type Callout, calloutsBox, drawCallouts, type PlacedCallout, placeCallouts } from './callouts.ts';
import { type Canvas, fileOf, openCanvas, type Pen } from './canvas.ts';
import { boxCorners, clipPolygon } from './clip-polygon.ts';
import { type Ceiling, columnKey, explode, type Lifted } from './explode.ts';
import { INK, PAPER, SOFT, TONES } from './palette.ts';
import { drawStrokedRod } from './rod-stroke.ts';
import { type Shown, show } from './shown.ts';
import { sizeWords, timesWords } from './stock-words.ts';
import { textBox } from './text-size.ts';
import { piecesOf, tiersOf } from './tiers.ts';

/** Up to this many elements the whole antenna is shown; of a larger one a single stack over its part of the reflector. */
const WHOLE_UP_TO = 4;
const DRAWN_WIDTH = 130;
const DRAWN_HEIGHT = 200;
const EDGE = 0.2;

/** Every part pulled apart along its axis, with names, sizes and numbers: `pictures/antenna-exploded.svg`. */
export function antennaExploded(assembly: Assembly): EmittedFile {
  const scene = sceneOf(assembly);
  const callouts = placeCallouts(calloutsOf(scene), scene.extent.maxX + 14);
  const canvas = openCanvas({
    page: pageOf(scene, callouts),
    title: `${assembly.design.name}: exploded view`,
    about: `Revision ${assembly.design.revision}. Parts pulled apart along their axes; not a template.`,
  });
  drawScene(canvas, scene, callouts);
  return fileOf(canvas, { path: 'pictures/antenna-exploded.svg', kind: 'picture-svg', part: undefined });
}

interface Scene {
  readonly assembly: Assembly;
  readonly lifted: readonly Lifted[];
  readonly scale: number;
  /** Everything drawn, on the page. */
  readonly extent: Bounds;
  readonly whole: boolean;
}

function sceneOf(assembly: Assembly): Scene {
  const whole = assembly.elements.length <= WHOLE_UP_TO;
  const window = whole ? wholeWindow(assembly) : stackWindow(assembly);
  const shownElement = whole ? undefined : middleElement(assembly);
  const pieces = piecesOf(assembly).filter(
    ({ placement }) =>
      shownElement === undefined || placement.element === undefined || placement.element === shownElement,
  );
  const inWindow = pieces.filter(({ part, placement }) => part.form !== 'bought' || isInside(placement.at, window));
  const tiers = tiersOf(assembly, inWindow).map((tier) => ({
    name: tier.name,
    shown: tier.pieces.flatMap((piece) => show(assembly, piece, window) ?? []),
  }));
  const gap = gapFor(assembly);
  const lifted = explode(
    tiers.filter((tier) => tier.shown.length > 0),
    { tierMm: gap, pieceMm: gap * 0.25, ceiling: ceilingUnder(tiers, gap * 0.4) },
  );
  const bare = boundsOfPoints(lifted.flatMap((one) => pointsOf(one).map((point) => onPage({ scale: 1 }, point))));
  const scale = Math.min(DRAWN_WIDTH / widthOf(bare), DRAWN_HEIGHT / heightOf(bare), 3);
  const extent = { minX: bare.minX * scale, maxX: bare.maxX * scale, minY: bare.minY * scale, maxY: bare.maxY * scale };
  return { assembly, lifted, scale, extent, whole };
}

/**
 * A piece behind the reflector is drawn just below the reflector's front edge as seen at that place of the page.
 * The edge is looked for over the piece's own width, because a corner may lie within it.
 */
function ceilingUnder(
  tiers: readonly { readonly name: string; readonly shown: readonly Shown[] }[],
  clearMm: number,
): Ceiling {
  const reflector = tiers.filter((tier) => tier.name === 'reflector').flatMap((tier) => tier.shown);
  const rings = reflector.flatMap((shown) =>
    (shown.solid?.prisms ?? []).map((prism) => prism.outer.map((point) => project({ ...point, z: prism.from }))),
  );
  return (shown) => {
    const { x } = project({ ...shown.centre, z: 0 });
    const reach = 4;
    const edge = Math.min(...rings.map((ring) => lowestBetween(ring, x - reach, x + reach)));
    const top = heightDrawnAt(edge, shown.centre);
    return Math.min(0, Number.isFinite(top) ? top : 0) - clearMm;
  };
}

function lowestBetween(ring: readonly Point[], left: number, right: number): number {
  const strip = { minX: left, maxX: right, minY: -1e6, maxY: 1e6 };
  return Math.min(...clipPolygon(ring, boxCorners(strip)).map((point) => point.y));
}

const isInside = (at: Point, box: Bounds): boolean =>
  at.x >= box.minX && at.x <= box.maxX && at.y >= box.minY && at.y <= box.maxY;

function wholeWindow(assembly: Assembly): Bounds {
  const { widthMm, heightMm } = assembly.reflector;
  return { minX: -widthMm / 2 - 1, maxX: widthMm / 2 + 1, minY: -heightMm / 2 - 1, maxY: heightMm / 2 + 1 };
}

/** The stack nearest the coax: its surroundings show how the harness begins. */
function middleElement(assembly: Assembly): number {
  const distances = assembly.elements.map(({ centre }) =>
    Math.hypot(centre.x - assembly.coaxPoint.x, centre.y - assembly.coaxPoint.y),
  );
  return distances.indexOf(Math.min(...distances));
}

function stackWindow(assembly: Assembly): Bounds {
  const element = assembly.elements[middleElement(assembly)];
  if (element === undefined) throw new Error('an antenna has at least one element');
  const { widthMm, heightMm } = largestPatch(assembly);
  const { rowPitchMm, columnPitchMm } = assembly.design.lattice;
  const half = Math.max(widthMm, heightMm, Math.min(rowPitchMm || Infinity, columnPitchMm || Infinity)) * 0.62;
  const stack = around(element.centre, half);
  const coax = around(assembly.coaxPoint, 4);
  const near = Math.hypot(element.centre.x - assembly.coaxPoint.x, element.centre.y - assembly.coaxPoint.y) < 2 * half;
  return near ? union(stack, coax) : stack;
}

function largestPatch(assembly: Assembly): { readonly widthMm: number; readonly heightMm: number } {
  const { layers, lattice } = assembly.design;
  const extents = layers.map((layer) => shapeExtent(layer.shape, lattice.orientation));
  return {
    widthMm: Math.max(...extents.map((extent) => extent.widthMm)),
    heightMm: Math.max(...extents.map((extent) => extent.heightMm)),
  };
}

function gapFor(assembly: Assembly): number {
  const { widthMm, heightMm } = largestPatch(assembly);
  return Math.max(6, 0.5 * Math.max(widthMm, heightMm));
}

/** Points that bound a piece where it is drawn. */
function pointsOf({ shown, liftMm }: Lifted): readonly Point3[] {
  const prisms = shown.solid?.prisms ?? [];
  const corners = prisms.flatMap((prism) =>
    prism.outer.flatMap((point) => [
      { ...point, z: prism.from + liftMm },
      { ...point, z: prism.to + liftMm },
    ]),
  );
  return [...corners, ...shown.bars.flatMap((bar) => bar.points.map((point) => ({ ...point, z: point.z + liftMm })))];
}

const titleAt = (scene: Scene): Point => ({ x: scene.extent.minX, y: scene.extent.maxY + 16 });

function pageOf(scene: Scene, callouts: readonly PlacedCallout[]): Bounds {
  const title = textBox(scene.assembly.design.name, titleAt(scene), { sizeMm: 6, bold: true });
  const box = grow([title, calloutsBox(callouts) ?? title].reduce(union, scene.extent), 8);
  return {
    minX: Math.floor(box.minX),
    minY: Math.floor(box.minY),
    maxX: Math.ceil(box.maxX),
    maxY: Math.ceil(box.maxY),
  };
}

function drawScene(canvas: Canvas, scene: Scene, callouts: readonly PlacedCallout[]): void {
  const { design } = scene.assembly;
  canvas.box(pageOf(scene, callouts), { fill: PAPER, stroke: 'none', id: 'paper' });
  const at = titleAt(scene);
  canvas.text(at, design.name, { sizeMm: 6, bold: true, colour: INK });
  const subject = scene.whole ? 'exploded view' : `exploded view of one of ${scene.assembly.elements.length} stacks`;
  canvas.text({ x: at.x, y: at.y - 5 }, `${subject}, revision ${design.revision}`, { sizeMm: 2.8, colour: '#5d564c' });
  drawTiers(canvas, scene);
  drawCallouts(canvas, callouts);
}

/** Lower tiers first, and far pieces before near ones: what is nearer the eye covers what is behind it. */
function drawTiers(canvas: Canvas, scene: Scene): void {
  const ends = new Map<string, Point3>();
  const names = [...new Set(scene.lifted.map((one) => one.tier + (one.shown.piece.placement.layer ?? '')))];
  for (const name of names) {
    const tier = scene.lifted.filter((one) => one.tier + (one.shown.piece.placement.layer ?? '') === name);
    const ordered = [...tier].sort(
      (a, b) =>
        depthOf(b.shown.centre) - depthOf(a.shown.centre) || a.shown.fromMm + a.liftMm - (b.shown.fromMm + b.liftMm),
    );
    const group = canvas.group(`tier-${name}`, { stroke: INK, width: EDGE, join: 'round', cap: 'round' });
    const axes = group.group(`axes-${name}`, { stroke: SOFT, width: 0.18, dash: [2.4, 0.8, 0.5, 0.8], fill: 'none' });
    for (const one of ordered) {
      drawAxes(axes, scene, { one, ends });
    }
    for (const one of ordered) drawLifted(group, scene, one);
  }
}

/** The line a piece moved along: from the top of the piece before it on the same axis to its own underside. */
function drawAxes(pen: Pen, scene: Scene, what: { readonly one: Lifted; readonly ends: Map<string, Point3> }): void {
  const { one, ends } = what;
  for (const axis of axesOf(one)) {
    const key = columnKey(axis);
    const before = ends.get(key);
    const [from, to] = [one.shown.fromMm + one.liftMm, one.shown.toMm + one.liftMm];
    const stage = { scale: scene.scale };
    if (before !== undefined && before.z < from) pen.line(onPage(stage, before), onPage(stage, { ...axis, z: from }));
    ends.set(key, { ...axis, z: to });
  }
}

/** Axes a piece belongs to: its own, and for sheets that of every hole in them. */
function axesOf({ shown }: Lifted): readonly Point[] {
  const { part, placement } = shown.piece;
  if (part.form === 'rod' || part.form === 'tube') return [];
  if (part.form !== 'plate' && part.form !== 'board') return [{ x: placement.at.x, y: placement.at.y }];
  const turn = (placement.turnDeg * Math.PI) / 180;
  return part.outline.holes
    .filter((hole) => hole.purpose !== 'mounting')
    .map(({ centre }) => ({
      x: placement.at.x + centre.x * Math.cos(turn) - centre.y * Math.sin(turn),
      y: placement.at.y + centre.x * Math.sin(turn) + centre.y * Math.cos(turn),
    }));
}

function drawLifted(pen: Pen, scene: Scene, { shown, liftMm }: Lifted): void {
  const stage: Stage = { pen, scale: scene.scale };
  for (const prism of shown.solid?.prisms ?? []) drawPrism(stage, raised(prism, liftMm));
  const top = shown.toMm + liftMm;
  for (const { ring, dark } of shown.copper) {
    const points = ring.map((point) => onPage(stage, { ...point, z: top }));
    pen.polygon(points, { fill: dark ? TONES.copper.light : TONES.laminate.light, stroke: 'none' });
  }
  if (shown.copper.length > 0) redrawHoles(stage, shown.solid?.prisms ?? [], top);
  for (const bar of shown.bars) {
    const points = bar.points.map((point) => onPage(stage, { ...point, z: point.z + liftMm }));
    drawStrokedRod(pen, points, { widthMm: bar.diameterMm * scene.scale, tones: bar.tones });
  }
}

const raised = (prism: Prism, by: number): Prism => ({ ...prism, from: prism.from + by, to: prism.to + by });

function redrawHoles(stage: Stage, prisms: readonly Prism[], top: number): void {
  for (const hole of prisms.flatMap((prism) => prism.holes))
    stage.pen.polygon(
      hole.map((point) => onPage(stage, { ...point, z: top })),
      { fill: TONES.laminate.dark },
    );
}

/** One label for each part of each tier, at the piece furthest to the right. */
function calloutsOf(scene: Scene): readonly Callout[] {
  const chosen = new Map<string, { readonly lifted: Lifted; readonly anchor: Point; readonly count: number }>();
  for (const lifted of scene.lifted) {
    const key = `${lifted.tier} ${lifted.shown.piece.placement.layer ?? ''} ${lifted.shown.piece.part.id}`;
    const anchor = anchorOf(scene, lifted);
    const known = chosen.get(key);
    const count = (known?.count ?? 0) + 1;
    const further = known === undefined || anchor.x > known.anchor.x;
    chosen.set(key, further ? { lifted, anchor, count } : { ...known, count });
  }
  return [...chosen.values()].map(({ lifted, anchor, count }, index) => {
    const { part } = lifted.shown.piece;
    const size = part.form === 'bought' && part.lengthMm === undefined ? [] : [sizeWords(part)];
    return {
      id: `${index}-${part.id}`,
      anchor,
      title: part.name,
      lines: [...size, countWords(scene, part.quantity, count)],
    };
  });
}

/** A part that sits in several places says how many sit here. */
function countWords(scene: Scene, quantity: number, here: number): string {
  return scene.whole && here < quantity ? `${here} here, ${quantity} in all` : timesWords(quantity);
}

/** A point on the piece, near its right end, so that leaders do not cross the drawing. */
function anchorOf(scene: Scene, lifted: Lifted): Point {
  const points = pointsOf(lifted).map((point) => onPage({ scale: scene.scale }, point));
  const box = boundsOfPoints(points);
  const right = points.reduce((best, point) => (point.x > best.x + 1e-9 ? point : best));
  const centre = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
  // A reflector has a hole in its corner: its label points at the edge beside it.
  if (lifted.tier === 'reflector') {
    const lowest = points.reduce((best, point) => (point.y < best.y - 1e-9 ? point : best));
    return towards(towards(right, lowest, 0.12), centre, 0.03);
  }
  return towards(right, centre, 0.12);
}

const towards = (from: Point, to: Point, part: number): Point => ({
  x: from.x + (to.x - from.x) * part,
  y: from.y + (to.y - from.y) * part,
});
