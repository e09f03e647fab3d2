import {
  type Assembly,
  flattenContour,
  type HarnessRun,
  type Point,
  placeContour,
  turnPoint,
} from '@sheetwave/geometry';
import { type Convex, symmetricHull } from './convex.ts';

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
  return {
    layers: assembly.design.layers.flatMap((_, index) => heldLayer(assembly, { index, standMm, turnDeg })),
    obstacles: obstaclesOf(assembly, turnDeg).map((o) => ({ ...o, topMm: o.topMm - standMm })),
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

function obstaclesOf(assembly: Assembly, turnDeg: number): readonly Obstacle[] {
  const { harness, coax } = assembly.design;
  if (harness.kind === 'none' || harness.kind === 'microstrip') return [];
  const thickMm = (run: HarnessRun): number => (harness.kind === 'rod' ? run.sizeMm / 2 : harness.sheet.thicknessMm);
  const runs = assembly.harness.flatMap((split) => split.arms.flat());
  const radiusMm = coax.throughHoleMm / 2;
  return assembly.elements.flatMap(({ centre }) => {
    const local = (p: Point): Point => about(centre, p, turnDeg);
    const entry = {
      outline: bar(local(assembly.coaxPoint), local(assembly.coaxPoint), radiusMm),
      topMm: harness.heightMm,
    };
    const bars = runs.map((run) => ({
      outline: bar(local(run.from), local(run.to), run.sizeMm / 2),
      topMm: harness.heightMm + thickMm(run),
    }));
    return [entry, ...bars];
  });
}

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
