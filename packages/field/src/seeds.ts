import type { Seed } from './grid-lines.ts';
import { edgesOf, outlineArea, outlineBounds } from './outline.ts';
import { facingBounds, type Gap, gapsAcross, sheetBox, solidBox } from './planes.ts';
import type { GridRules } from './quality.ts';
import {
  axisIndex,
  axisOfSpan,
  type Outline,
  type PlanePoint,
  type Position,
  planeAxes,
  type Scene,
  type Sheet,
} from './scene.ts';
import type { Axis } from './update.ts';

export interface SeedRequest {
  readonly scene: Scene;
  readonly rules: GridRules;
  /** Largest cell, m. */
  readonly largest: number;
}

/**
 * How far the last metal node lies inside the edge of a sheet without thickness, in cells. There the sub-cell factors of
 * the edge are near 1.
 */
const INSIDE_THIN = 0.35;
/** The same for the edge of a thick sheet, whose field is less singular. */
const INSIDE_THICK = 0.25;

/** What the structure asks of the lines across one axis. */
export function seedsAcross(request: SeedRequest, axis: Axis): Seed[] {
  return [
    ...gapSeeds(request, axis),
    ...request.scene.sheets.flatMap((sheet) => edgeSeeds(request, sheet, axis)),
    ...solidSeeds(request, axis),
    ...spanSeeds(request, axis),
  ];
}

/** A gap through which metal reaches over all that faces each other: a screw between two plates does not fill theirs. */
function isInsideSheet({ scene }: SeedRequest, axis: Axis, gap: Gap): boolean {
  const facing = facingBounds(gap);
  return scene.sheets.some((sheet) => {
    if (sheet.normal !== axis || sheet.thickness === 0) return false;
    if (sheet.at > gap.from + SAME || sheet.at + sheet.thickness < gap.to - SAME) return false;
    const { low, high } = outlineBounds(sheet.outline);
    const covers = (n: 0 | 1) =>
      facing !== undefined && low[n] <= facing.low[n] + SAME && high[n] >= facing.high[n] - SAME;
    return covers(0) && covers(1);
  });
}

/** m: faces closer than this are one. */
const SAME = 1e-9;

function gapCell(request: SeedRequest, axis: Axis, gap: Gap): number {
  const resolution = Math.min(...gap.planes.map((plane) => plane.resolution ?? 1));
  const cells = isInsideSheet(request, axis, gap) ? 1 : Math.max(1, request.rules.cellsAcrossGap * resolution);
  return Math.min(request.largest, (gap.to - gap.from) / cells);
}

/** Lines on the faces across this axis, and enough cells in every gap between two of them. */
function gapSeeds(request: SeedRequest, axis: Axis): Seed[] {
  const gaps = gapsAcross(request.scene, axis);
  const sized = gaps.map(
    (gap): Seed => ({ at: gap.from, until: gap.to, size: gapCell(request, axis, gap), line: 'none' }),
  );
  const faces = [
    ...gaps.flatMap((gap) => [gap.from, gap.to]),
    ...request.scene.sheets
      .filter((sheet) => sheet.normal === axis)
      .flatMap((sheet) => [sheet.at, sheet.at + sheet.thickness]),
  ];
  return [...sized, ...faces.map((at): Seed => ({ at, size: request.largest, line: 'firm' }))];
}

/** The cell wanted at an edge of a sheet: that of the narrowest gap beside it which reaches there. */
function edgeCells(request: SeedRequest, sheet: Sheet, n: 0 | 1): (from: number, to: number) => number {
  const faces = [sheet.at, sheet.at + sheet.thickness];
  const beside = gapsAcross(request.scene, sheet.normal)
    .filter((gap) => faces.some((face) => Math.abs(face - gap.from) < SAME || Math.abs(face - gap.to) < SAME))
    .filter((gap) => !isInsideSheet(request, sheet.normal, gap))
    .map((gap) => {
      const { low, high } = facingBounds(gap) ?? EVERYWHERE;
      const fringe = FRINGE * (gap.to - gap.from);
      const cell = gapCell(request, sheet.normal, gap) * request.rules.edgeToGapCell;
      return { low: low[n] - fringe, high: high[n] + fringe, cell };
    });
  return (from, to) =>
    beside.reduce(
      (cell, gap) => (gap.low <= to && gap.high >= from ? Math.min(cell, gap.cell) : cell),
      request.largest,
    );
}

/** Of the densest layer that touches all of a sheet: by its root the wave along the sheet is shorter than in air. */
function permittivityBeside({ solids }: Scene, sheet: Sheet): number {
  const [own, other] = sheetBox(sheet);
  const touching = solids.filter((solid) => {
    const [low, high] = solidBox(solid);
    return solid.shape.kind === 'box' && [0, 1, 2].every((n) => covers(n, [low, high]));
  });
  function covers(n: number, [low, high]: readonly [Position, Position]): boolean {
    const [from, to] = [low[n] as number, high[n] as number];
    if (n === axisIndex(sheet.normal)) return from <= (other[n] as number) + SAME && to >= (own[n] as number) - SAME;
    return from <= (own[n] as number) + SAME && to >= (other[n] as number) - SAME;
  }
  return touching.reduce((most, { permittivity }) => Math.max(most, permittivity), 1);
}

/** How far the field of a gap spreads beyond it, in heights of the gap. */
const FRINGE = 2;

const EVERYWHERE = {
  low: [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY],
  high: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
} as const;

function edgeSeeds(request: SeedRequest, sheet: Sheet, axis: Axis): Seed[] {
  const axes = planeAxes(sheet.normal);
  const n = ([0, 1] as const).find((side) => axes[side] === axis);
  if (n === undefined) return [];
  const cellAt = edgeCells(request, sheet, n);
  const ends = sheetEnds(sheet, n);
  // A sheet narrower than this carries a standing wave, whose nodes and maxima need smaller cells than a free wave.
  const resonant = ends[1] - ends[0] < request.largest * request.rules.cellsPerWavelength;
  const standing = request.largest / request.rules.standingWave / Math.sqrt(permittivityBeside(request.scene, sheet));
  const outlines: [Outline, number][] = [
    [sheet.outline, 1],
    ...(sheet.holes ?? []).map((hole): [Outline, number] => [hole, -1]),
  ];
  const inner: Seed[] = resonant ? [{ at: ends[0], until: ends[1], size: standing, line: 'none' }] : [];
  const edges = outlines.flatMap(([outline, sense]) => {
    const { low, high } = outlineBounds(outline);
    const width = (high[n] as number) - (low[n] as number);
    const across = request.rules.cellsAcrossWidth * (sheet.resolution ?? 1);
    const narrow = Math.min(width, openness(outline)) / across;
    const fine = (from: number, to: number) => Math.min(cellAt(from, to), narrow, resonant ? standing : narrow);
    const inside = sheet.thickness > 0 ? INSIDE_THICK : INSIDE_THIN;
    const [from, to] = [low[n] as number, high[n] as number];
    if (outline.kind === 'disc') return curvedSeeds(from, to, fine(from, to));
    return straightSeeds(outline.points, n, {
      fine,
      inside: sense > 0 ? inside : 1 - inside,
      fringe: request.rules.fringe,
    });
  });
  return [...inner, ...edges];
}

/** Four areas over the perimeter: the side of a square, the diameter of a disc, twice the width of a long slot. */
const openness = (outline: Outline): number =>
  (4 * outlineArea(outline)) / (outline.kind === 'disc' ? 2 * Math.PI * outline.radius : perimeter(outline.points));

const perimeter = (points: readonly PlanePoint[]): number =>
  edgesOf(points).reduce((sum, [a, b]) => sum + Math.hypot(a[0] - b[0], a[1] - b[1]), 0);

const sheetEnds = (sheet: Sheet, n: 0 | 1): readonly [number, number] => {
  const { low, high } = outlineBounds(sheet.outline);
  return [low[n], high[n]];
};

/** A round edge crosses lines everywhere: no line is better than another, only the size matters. */
const curvedSeeds = (low: number, high: number, size: number): Seed[] => [{ at: low, until: high, size, line: 'none' }];

interface EdgeRule {
  readonly fine: (from: number, to: number) => number;
  readonly inside: number;
  readonly fringe: number;
}

/** Two lines beside each straight edge along the other axis; for slanted edges the size alone. */
function straightSeeds(points: readonly PlanePoint[], n: number, rule: EdgeRule): Seed[] {
  const { inside, fringe } = rule;
  const middle = (Math.min(...points.map((p) => p[n] as number)) + Math.max(...points.map((p) => p[n] as number))) / 2;
  return edgesOf(points).flatMap(([a, b]): Seed[] => {
    const [from, to] = [a[n] as number, b[n] as number];
    const fine = rule.fine(Math.min(from, to), Math.max(from, to));
    if (Math.abs(from - to) > 1e-9) {
      const across = Math.abs((a[1 - n] as number) - (b[1 - n] as number)) > 1e-9;
      return across ? [{ at: Math.min(from, to), until: Math.max(from, to), size: fine, line: 'none' }] : [];
    }
    const outward = from < middle ? -1 : 1;
    return [
      { at: from - outward * inside * fine, size: fine, line: 'soft' },
      { at: from + outward * (1 - inside) * fine, size: fine, line: 'soft' },
      { at: from - fringe * fine, until: from + fringe * fine, size: fine, line: 'none' },
    ];
  });
}

function solidSeeds(request: SeedRequest, axis: Axis): Seed[] {
  return request.scene.solids.flatMap((solid) => {
    const flat = solid.shape.kind === 'box' || solid.shape.axis === axis;
    const [low, high] = solidBox(solid).map((corner) => corner[axisIndex(axis)]) as [number, number];
    const across = request.rules.cellsAcrossWidth * (solid.resolution ?? 1);
    if (!flat) return curvedSeeds(low, high, Math.min(request.largest, (high - low) / across));
    return [low, high].filter(Number.isFinite).map((at): Seed => ({ at, size: request.largest, line: 'firm' }));
  });
}

/** Room on each side of a wire, in radii: half of it is still enough for a cell. */
const WIRE_CLEARANCE = 3.5;

/** Lines through wires, ports and elements, and through their ends. */
function spanSeeds({ scene, largest }: SeedRequest, axis: Axis): Seed[] {
  const n = axisIndex(axis);
  return [...scene.wires, ...scene.ports, ...(scene.elements ?? [])].flatMap((span): Seed[] => {
    const along = axisOfSpan(span.from, span.to) === axis;
    const size = Math.min(largest, along ? Math.abs(span.to[n] - span.from[n]) : largest);
    // The cells beside a wire must stay wider than the wire.
    const clear =
      'radius' in span && span.radius !== undefined && !along ? { clear: WIRE_CLEARANCE * span.radius } : {};
    return [span.from[n], span.to[n]].map((at) => ({ at, size, line: 'firm', ...clear }));
  });
}
