import type { Assembly, Hole, PlatePart, Point } from '@sheetwave/geometry';
import { crowded, type Guide, guideLengthMm, guidesFor } from './drill-guides.ts';
import { inscriptionFor, lettering, MARGIN_MM } from './engraving.ts';
import { bore, box, movedFlat, without } from './flat-shapes.ts';
import { levelsFiles } from './levels-file.ts';
import { type Printed, short } from './print.ts';

const BORDER_MM = 4;
const SAME_MM = 1e-6;

/** Holes that every element has at the same place about its centre. */
export interface RepeatedHoles {
  /** About the centre of an element. */
  readonly pattern: readonly Hole[];
  /** Centres of all of them. */
  readonly all: readonly Point[];
}

export function repeatedHoles(assembly: Assembly, holes: readonly Hole[]): RepeatedHoles {
  const [first] = assembly.elements;
  if (first === undefined) return { pattern: [], all: [] };
  const byPlace = new Map(holes.map((hole) => [placeKey(hole.centre, hole.diameterMm), hole]));
  const at = (centre: Point, { centre: c, diameterMm }: Hole): Hole | undefined =>
    byPlace.get(placeKey({ x: centre.x + c.x, y: centre.y + c.y }, diameterMm));
  const near = holes.map((hole) => ({
    ...hole,
    centre: { x: hole.centre.x - first.centre.x, y: hole.centre.y - first.centre.y },
  }));
  const pattern = near.filter(
    (hole) => isNear(assembly, hole) && assembly.elements.every(({ centre }) => at(centre, hole)),
  );
  const all = assembly.elements.flatMap(({ centre }) => pattern.map((hole) => at(centre, hole)?.centre ?? centre));
  return { pattern, all };
}

const placeKey = ({ x, y }: Point, diameterMm: number): string =>
  [x, y, diameterMm].map((mm) => Math.round(mm * 1000)).join();

function isNear({ design: { lattice } }: Assembly, { centre }: Hole): boolean {
  const within = (at: number, count: number, pitch: number): boolean =>
    count === 1 || Math.abs(at) <= pitch / 2 - SAME_MM;
  return within(centre.x, lattice.columns, lattice.columnPitchMm) && within(centre.y, lattice.rows, lattice.rowPitchMm);
}

/**
 * A plate with the holes of up to two by two neighbouring elements. It is pinned, through two of its bores, on holes that are
 * already drilled, and guides the next ones: the pitch comes from the print, the direction from the pins.
 */
export function stepJig(assembly: Assembly, part: PlatePart, { pattern }: RepeatedHoles): Printed {
  const { print, revision, lattice } = assembly.design;
  const cells = cellsOf(lattice);
  if (pattern.length === 0 || cells.length < 2) return leftOut(part, 'no holes repeat');
  const holes = cells.flatMap((cell) =>
    pattern.map((hole) => ({ ...hole, centre: { x: hole.centre.x + cell.x, y: hole.centre.y + cell.y } })),
  );
  const { guides } = guidesFor(holes, print, part.name);
  if (crowded(guides) !== undefined) return leftOut(part, 'neighbouring bores would meet');
  const high = cornerOf(guides, 1);
  const low = cornerOf(guides, -1);
  const drills = [...new Set(guides.map(({ drillMm }) => short(drillMm)))].join(' ');
  const letters = lettering(print);
  const pitches = [lattice.columns > 1 ? lattice.columnPitchMm : 0, lattice.rows > 1 ? lattice.rowPitchMm : 0];
  const pitch = pitches.filter((mm) => mm > 0).map(short);
  const wordings = [`STEP REV ${revision}`, `PITCH ${pitch.join(' ')}`, `DRILL ${drills}`];
  const text = inscriptionFor(wordings, letters, high.x - low.x - 2 * MARGIN_MM);
  const plate = {
    low: { x: low.x, y: low.y - text.heightMm - MARGIN_MM },
    high: { x: Math.max(high.x, low.x + text.widthMm + 2 * MARGIN_MM), y: high.y },
  };
  const size = { x: plate.high.x - plate.low.x, y: plate.high.y - plate.low.y };
  if (size.x > print.bedMm.x || size.y > print.bedMm.y)
    return leftOut(part, `it would be ${short(size.x)} x ${short(size.y)} mm, more than the bed`);
  const flat = without(
    box(plate.low, plate.high),
    guides.map((guide) => bore(guide.at, guide.boreMm)),
  );
  const engraved = movedFlat(text.flat, { x: plate.low.x + MARGIN_MM, y: plate.low.y + MARGIN_MM });
  const thick = guideLengthMm(guides);
  const files = levelsFiles({
    path: `jigs/drill-${part.id}-step`,
    title: `drilling jig that steps over the ${part.name}`,
    use: `Print one. Pins of the hole's diameter go through two bores into two drilled holes; drill through the others (drills: ${drills} mm), move on by one pitch, and pin again.`,
    part: part.id,
    bevelMm: print.elephantFootMm,
    levels: [
      { flat, topMm: thick - letters.depthMm },
      { flat: without(flat, [engraved]), topMm: thick },
    ],
  });
  return { files, notes: [] };
}

function cellsOf(lattice: Assembly['design']['lattice']): readonly Point[] {
  const xs = lattice.columns > 1 ? [0, lattice.columnPitchMm] : [0];
  const ys = lattice.rows > 1 ? [0, lattice.rowPitchMm] : [0];
  return ys.flatMap((y) => xs.map((x) => ({ x, y })));
}

/** The corner of the plate beyond all bores, upper right for 1 and lower left for −1. */
function cornerOf(guides: readonly Guide[], sense: 1 | -1): Point {
  const reach = (axis: 'x' | 'y'): number =>
    sense * Math.max(...guides.map(({ at, boreMm }) => sense * at[axis] + boreMm / 2 + BORDER_MM));
  return { x: reach('x'), y: reach('y') };
}

const leftOut = (part: PlatePart, why: string): Printed => ({
  files: [],
  notes: [`drilling jig that steps over the ${part.name} left out: ${why}`],
});
