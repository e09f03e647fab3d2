import { around, boxCorners, clipPolygon, heightOf, union, widthOf } from '@sheetwave/drawings';
import { type Assembly, type Bounds, boundsOfPoints, type Point, type Point3, shapeExtent } from '@sheetwave/geometry';
import { heightDrawnAt, onPage, project } from './axonometry.ts';
import { type Ceiling, explode, type Lifted } from './explode.ts';
import { nearestToCoax } from './nearest-to-coax.ts';
import { type Shown, show } from './shown.ts';
import { piecesOf, tiersOf } from './tiers.ts';

/** Up to this many elements the whole antenna is shown; of a larger one a single stack over its part of the reflector. */
const WHOLE_UP_TO = 4;
export const DRAWN_WIDTH = 130;
const DRAWN_HEIGHT = 200;

/** An antenna pulled apart, at the scale of its picture. */
export interface Scene {
  readonly assembly: Assembly;
  readonly lifted: readonly Lifted[];
  readonly scale: number;
  /** Everything drawn, on the page. */
  readonly extent: Bounds;
  readonly whole: boolean;
}

export function sceneOf(assembly: Assembly, drawnWidthMm: number): Scene {
  const whole = assembly.elements.length <= WHOLE_UP_TO;
  const window = whole ? wholeWindow(assembly) : stackWindow(assembly);
  const shownElement = whole ? undefined : nearestToCoax(assembly);
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
  const scale = Math.min(drawnWidthMm / widthOf(bare), DRAWN_HEIGHT / heightOf(bare), 3);
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

function stackWindow(assembly: Assembly): Bounds {
  const element = assembly.elements[nearestToCoax(assembly)];
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
export function pointsOf({ shown, liftMm }: Lifted): readonly Point3[] {
  const prisms = shown.solid?.prisms ?? [];
  const corners = prisms.flatMap((prism) =>
    prism.outer.flatMap((point) => [
      { ...point, z: prism.from + liftMm },
      { ...point, z: prism.to + liftMm },
    ]),
  );
  return [...corners, ...shown.bars.flatMap((bar) => bar.points.map((point) => ({ ...point, z: point.z + liftMm })))];
}
