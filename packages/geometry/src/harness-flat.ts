import type { Design, Finding, Harness, StripLevel } from '@sheetwave/design';
import type { CopperPiece, HarnessRun, HarnessSplit, Placement, PlatePart, RodPart } from './assembly.ts';
import { bounds } from './contour-measure.ts';
import { circleContour } from './contours.ts';
import { errorFinding, mm } from './finding.ts';
import { PROBE_PROTRUSION_MM } from './harness-rod.ts';
import { waysOfOneSize } from './harness-runs.ts';
import type { Contour, Hole, Point } from './outline.ts';
import { mitreFraction, ribbon } from './ribbon.ts';
import { unionContours } from './union.ts';

type StripHarness = Extract<Harness, { kind: 'strip' }>;

/** Play of a pin in the hole it is soldered into. */
const PIN_PLAY_MM = 0.2;
/** Least metal around a soldered hole in a strip, where the process asks for no more. */
const LAND_WEB_MM = 1;

/** Both arms of a split as ways of one width: arms of equal width at the junction become one way through it. */
function waysThroughJunction(split: HarnessSplit): { way: Point[]; sizeMm: number }[] {
  const [first = [], second = [], ...others] = split.arms;
  const reversed: HarnessRun[] = [...first].reverse().map((run) => ({ ...run, from: run.to, to: run.from }));
  return [...waysOfOneSize([...reversed, ...second]), ...others.flatMap((arm) => waysOfOneSize(arm))];
}

/** Where two widths meet, the narrower line reaches half its width into the wider, so that no two edges coincide. */
function overlapped(ways: { way: Point[]; sizeMm: number }[]): { way: Point[]; sizeMm: number }[] {
  return ways.map(({ way, sizeMm }, index) => {
    const before = ways[index - 1];
    const after = ways[index + 1];
    let extended = way;
    if (before && before.sizeMm > sizeMm && touches(before.way.at(-1), way[0]))
      extended = extendStart(extended, sizeMm / 2);
    if (after && after.sizeMm > sizeMm && touches(after.way[0], way.at(-1)))
      extended = extendStart([...extended].reverse(), sizeMm / 2).reverse();
    return { way: extended, sizeMm };
  });
}

function touches(a: Point | undefined, b: Point | undefined): boolean {
  return a !== undefined && b !== undefined && Math.hypot(a.x - b.x, a.y - b.y) < 1e-6;
}

function extendStart(way: Point[], byMm: number): Point[] {
  const [first, second, ...rest] = way;
  if (!first || !second) return way;
  const length = Math.hypot(second.x - first.x, second.y - first.y);
  const part = byMm / length;
  return [{ x: first.x - (second.x - first.x) * part, y: first.y - (second.y - first.y) * part }, second, ...rest];
}

/** Etched lines of a microstrip harness: mitred at their corners, overlapping where they meet. */
export function microstripPieces(splits: readonly HarnessSplit[], dielectricMm: number): CopperPiece[] {
  return splits
    .flatMap((split) => overlapped(waysThroughJunction(split)))
    .map(({ way, sizeMm }) => ({
      purpose: 'line' as const,
      polarity: 'dark' as const,
      contour: ribbon(way, sizeMm, mitreFraction(sizeMm, dielectricMm)),
    }));
}

export interface StripParts {
  readonly parts: readonly (PlatePart | RodPart)[];
  readonly placements: readonly Placement[];
  readonly findings: readonly Finding[];
}

/**
 * A strip harness: one sheet part with a round land at the coax and at every feed point, and the pins that rise from
 * it into the driven patches.
 */
export function stripHarness(design: Design, splits: readonly HarnessSplit[], drivenTopMm: number): StripParts {
  const { harness, feed, coax, lattice } = design;
  if (harness.kind !== 'strip' || feed.kind !== 'probe') throw new Error('a strip harness needs strips and probes');
  const outermost = Math.max(...splits.map((split) => split.level));
  const feedPoints = splits.filter((split) => split.level === outermost).flatMap((split) => split.arms.map(endOfArm));
  const root = splits[0]?.at;
  if (!root) throw new Error('a harness without a junction');

  const holes: Hole[] = [
    { purpose: 'coax', centre: root, diameterMm: coax.coax.pinMm + PIN_PLAY_MM, plated: false },
    ...feedPoints.map((centre): Hole => ({ purpose: 'feed', centre, diameterMm: feed.solderHoleMm, plated: false })),
  ];
  const lands = holes.map((hole) => circleContour(hole.centre, landDiameter(hole.diameterMm, harness) / 2));
  const lines = splits
    .flatMap((split) => overlapped(waysThroughJunction(split)))
    .map(({ way, sizeMm }) => ribbon(way, sizeMm));
  const [outer, ...cutouts] = byArea(unionContours([...lines, ...lands]));
  if (!outer) throw new Error('the strip harness has no outline');

  const strip: PlatePart = {
    id: 'harness-strip',
    name: 'harness strip',
    quantity: 1,
    form: 'plate',
    role: 'strip',
    sheet: harness.sheet,
    outline: { outer, cutouts, holes },
    marks: [],
    process: harness.process,
  };
  const topMm = harness.heightMm + harness.sheet.thicknessMm;
  const pinFootMm = harness.heightMm - PROBE_PROTRUSION_MM;
  const pins = probePins(design, pinFootMm, drivenTopMm + PROBE_PROTRUSION_MM);
  return {
    parts: [strip, { ...pins, quantity: lattice.rows * lattice.columns }],
    placements: [
      { part: strip.id, at: { x: 0, y: 0, z: harness.heightMm }, turnDeg: 0, element: undefined, layer: undefined },
      ...feedPoints.map((point, element) => ({
        part: pins.id,
        at: { ...point, z: pinFootMm },
        turnDeg: 0,
        element,
        layer: undefined,
      })),
    ],
    findings: topMm < drivenTopMm ? [] : [touchesPatch(topMm, drivenTopMm)],
  };
}

function touchesPatch(topMm: number, drivenTopMm: number): Finding {
  return errorFinding('harness-touches-patch', 'harness.height', {
    value: `a strip that reaches up to ${mm(topMm)}`,
    allowed: `touches the driven patch, whose top is at ${mm(drivenTopMm)}`,
    remedy: 'lower the harness or use longer spacers',
  });
}

/** Straight pins of the probe's diameter. */
function probePins(design: Design, fromMm: number, toMm: number): RodPart {
  if (design.feed.kind !== 'probe') throw new Error('pins are for probe feeds');
  const diameterMm = design.feed.probeDiameterMm;
  return {
    id: 'probe-pin',
    name: 'probe pin',
    quantity: 0,
    form: 'rod',
    role: 'probe',
    rod: {
      kind: 'rod',
      id: `copper-wire-${diameterMm}`,
      label: `bare copper wire, ${mm(diameterMm)}`,
      material: { name: 'copper', densityKgM3: 8930, conductivitySm: 58e6 },
      diameterMm,
      lengthsMm: [1000],
      source: 'cut from installation wire or rod of this diameter',
      certainty: 'common practice',
    },
    corners: [
      { x: 0, y: 0, z: 0 },
      { x: 0, y: 0, z: toMm - fromMm },
    ],
    bendRadiusMm: 0,
    bends: [],
    developedLengthMm: toMm - fromMm,
  };
}

function widest(levels: readonly StripLevel[]): number {
  return Math.max(...levels.map((level) => level.widthMm));
}

function landDiameter(holeMm: number, { levels, process }: StripHarness): number {
  const webMm = Math.max(LAND_WEB_MM, process.leastWebMm);
  // Wider than the line even where the hole is small: a land as wide as the line would touch both its edges.
  return Math.max(holeMm + 2 * webMm, widest(levels) + 0.5);
}

function endOfArm(arm: readonly HarnessRun[]): Point {
  const end = arm.at(-1)?.to;
  if (!end) throw new Error('an arm without runs');
  return end;
}

/** Largest bounding box first: the outer contour before its openings. */
function byArea(contours: readonly Contour[]): Contour[] {
  const size = (contour: Contour): number => {
    const box = bounds(contour);
    return (box.maxX - box.minX) * (box.maxY - box.minY);
  };
  return [...contours].sort((a, b) => size(b) - size(a));
}
