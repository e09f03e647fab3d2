import {
  type Assembly,
  flattenContour,
  type HarnessRun,
  type Point,
  placeContour,
  turnPoint,
} from '@sheetwave/geometry';
import { type Convex, clipToBox, halfExtents, symmetricHull } from './convex.ts';
import { mostReachMm } from './jig-sizes.ts';

/** A patch, or the board it is etched on, that stands on a spacer. Heights above what the first spacer stands on; mm. */
export interface HeldLayer {
  readonly undersideMm: number;
  readonly topMm: number;
  /** Hull of the piece about its centre, symmetric, so that it serves every element whichever way round it is. */
  readonly outline: Convex;
}

/** Something that must stay free, about the centre of a stack. */
export interface Obstacle {
  readonly outline: Convex;
  readonly topMm: number;
}

/** One stack as a jig meets it. Elements differ only in their obstacles; here are those of all. */
export interface StackView {
  /** From the reflector outward. */
  readonly layers: readonly HeldLayer[];
  /** Harness and coax near the stack. */
  readonly obstacles: readonly Obstacle[];
  /** Where probes and lines are soldered in, with the radius of what is there. */
  readonly feeds: readonly { readonly at: Point; readonly radiusMm: number }[];
  /** Radius around the centre that spacers and screws take. */
  readonly coreRadiusMm: number;
  /** Distance to the next stack along x and y; infinite when there is none. */
  readonly pitch: Point;
}

/** Arcs become polygons that stay this near outside them. */
const ARC_MM = 0.01;

/** One stack seen in axes turned by `turnDeg` (0 or 90) from the antenna's. */
export function stackView(assembly: Assembly, turnDeg: 0 | 90): StackView {
  const { columns, rows, columnPitchMm, rowPitchMm } = assembly.design.lattice;
  const across = columns > 1 ? columnPitchMm : Infinity;
  const upward = rows > 1 ? rowPitchMm : Infinity;
  const standMm = standHeightMm(assembly);
  const layers = assembly.design.layers.flatMap((_, index) => heldLayer(assembly, { index, standMm, turnDeg }));
  const largestMm = Math.max(0, ...layers.flatMap(({ outline }) => coordinates(halfExtents(outline))));
  const nearMm = mostReachMm(largestMm, assembly.design.print);
  return {
    layers,
    obstacles: obstaclesOf(assembly, { turnDeg, nearMm }).map((o) => ({ ...o, topMm: o.topMm - standMm })),
    feeds: feedsOf(assembly, turnDeg),
    coreRadiusMm: coreRadiusMm(assembly),
    pitch: turnDeg === 0 ? { x: across, y: upward } : { x: upward, y: across },
  };
}

/** Height of the face under the first spacer: the front of the reflector or of its board. */
function standHeightMm(assembly: Assembly): number {
  const index = assembly.design.layers.findIndex((layer) => layer.spacer !== undefined);
  const spacer = assembly.design.layers[index]?.spacer;
  const height = assembly.layerHeights[index];
  if (spacer === undefined || height === undefined) return 0;
  return height.bodyUndersideMm - (spacer.kind === 'printed' ? spacer.heightMm : spacer.spacer.bodyMm);
}

function heldLayer(
  assembly: Assembly,
  where: { readonly index: number; readonly standMm: number; readonly turnDeg: number },
): readonly HeldLayer[] {
  const height = assembly.layerHeights[where.index];
  if (assembly.design.layers[where.index]?.spacer === undefined || height === undefined) return [];
  const placed = assembly.placements.flatMap((placement) => {
    const part = assembly.parts.find((p) => p.id === placement.part);
    const isPatch = (part?.form === 'plate' || part?.form === 'board') && part.role === 'patch';
    return isPatch && placement.layer === where.index ? [{ part, turnDeg: placement.turnDeg }] : [];
  })[0];
  if (placed === undefined) return [];
  const at = { x: 0, y: 0, z: 0 };
  const contour = placeContour(placed.part.outline.outer, { at, turnDeg: placed.turnDeg + where.turnDeg });
  const corners = flattenContour(contour, { toleranceMm: ARC_MM, corners: 'around' });
  return [
    {
      undersideMm: height.bodyUndersideMm - where.standMm,
      topMm: height.bodyTopMm - where.standMm,
      outline: symmetricHull(corners),
    },
  ];
}

function feedsOf(assembly: Assembly, turnDeg: number): StackView['feeds'] {
  const { feed } = assembly.design;
  const radiusMm = feed.kind === 'probe' ? Math.max(feed.probeDiameterMm, feed.solderHoleMm) / 2 : 0;
  return assembly.elements.map(({ centre, feedPoint }) => ({ at: about(centre, feedPoint, turnDeg), radiusMm }));
}

function coreRadiusMm(assembly: Assembly): number {
  const radii = assembly.parts.map((part) => {
    if (part.form === 'printed-spacer') return part.outerMm / 2;
    if (part.form !== 'bought' || part.item.kind !== 'spacer') return 0;
    // Across the corners of a hexagon: across flats / cos 30°.
    return part.item.acrossMm / 2 / (part.item.section === 'hexagon' ? Math.cos(Math.PI / 6) : 1);
  });
  return Math.max(0, ...radii);
}

interface Stretch {
  readonly from: Point;
  readonly to: Point;
  readonly radiusMm: number;
  readonly topMm: number;
}

/**
 * What stands near any of the stacks, each kind of neighbourhood once. The stacks of an array see much the same, so this keeps
 * a large array as quick to judge as a small one.
 */
function obstaclesOf(
  assembly: Assembly,
  { turnDeg, nearMm }: { readonly turnDeg: number; readonly nearMm: number },
): readonly Obstacle[] {
  const stretches = stretchesOf(assembly);
  const seen = new Map<string, Obstacle>();
  for (const { centre } of assembly.elements) {
    for (const { from, to, radiusMm, topMm } of stretches) {
      if (!passesNear({ from, to, radiusMm }, centre, nearMm)) continue;
      const whole = bar(about(centre, from, turnDeg), about(centre, to, turnDeg), radiusMm);
      const outline = clipToBox(whole, { x: -nearMm, y: -nearMm }, { x: nearMm, y: nearMm });
      if (outline.length > 0) seen.set(nameOf(outline, topMm), { outline, topMm });
    }
  }
  return [...seen.values()];
}

/** The conductors of the harness and the end of the coax, in antenna coordinates. */
function stretchesOf(assembly: Assembly): readonly Stretch[] {
  const { harness, coax } = assembly.design;
  if (harness.kind === 'none' || harness.kind === 'microstrip') return [];
  const { coaxPoint } = assembly;
  const thickMm = (run: HarnessRun): number => (harness.kind === 'rod' ? run.sizeMm / 2 : harness.sheet.thicknessMm);
  const runs = assembly.harness.flatMap((split) => split.arms.flat());
  return [
    { from: coaxPoint, to: coaxPoint, radiusMm: coax.throughHoleMm / 2, topMm: harness.heightMm },
    ...runs.map((run) => ({
      from: run.from,
      to: run.to,
      radiusMm: run.sizeMm / 2,
      topMm: harness.heightMm + thickMm(run),
    })),
  ];
}

/** Whether the box around a stretch, with its square ends, comes into the box around a centre. */
function passesNear({ from, to, radiusMm }: Omit<Stretch, 'topMm'>, centre: Point, nearMm: number): boolean {
  const reach = nearMm + Math.SQRT2 * radiusMm;
  return (
    Math.min(from.x, to.x) - centre.x <= reach &&
    centre.x - Math.max(from.x, to.x) <= reach &&
    Math.min(from.y, to.y) - centre.y <= reach &&
    centre.y - Math.max(from.y, to.y) <= reach
  );
}

/** The same for what lies in the same place to a nanometre. */
const nameOf = (outline: Convex, topMm: number): string =>
  [topMm, ...outline.flatMap(coordinates)].map((value) => Math.round(value * 1e6)).join();

const coordinates = ({ x, y }: Point): readonly [number, number] => [x, y];

const about = (centre: Point, point: Point, turnDeg: number): Point =>
  turnPoint({ x: point.x - centre.x, y: point.y - centre.y }, turnDeg);

/** A rectangle around a stretch of conductor, square past its ends by half its width. */
function bar(from: Point, to: Point, radiusMm: number): Convex {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const [x, y] =
    length === 0 ? [radiusMm, 0] : [((to.x - from.x) / length) * radiusMm, ((to.y - from.y) / length) * radiusMm];
  return [
    { x: from.x - x + y, y: from.y - y - x },
    { x: to.x + x + y, y: to.y + y - x },
    { x: to.x + x - y, y: to.y + y + x },
    { x: from.x - x - y, y: from.y - y + x },
  ];
}
