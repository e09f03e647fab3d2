import type { EmittedFile, Flat, Point } from '@sheetwave/geometry';
import { type Guide, guideLengthMm } from './drill-guides.ts';
import { type Inscription, inscriptionFor, lettering, MARGIN_MM } from './engraving.ts';
import { bore, box, type Extent, joined, mirroredFlat, movedFlat, without } from './flat-shapes.ts';
import { levelsFiles } from './levels-file.ts';
import { type Print, short } from './print.ts';
import { sightWindows } from './sight-windows.ts';

/** Bars that the blank is pushed against. */
const FENCE_MM = 8;
/** How far they stand past the blank, to hold its backing as well. */
const BACKING_MM = 5;
/** Left open where the fences would meet, for the corner of the blank and its burr. */
const OPEN_CORNER_MM = 3;
/** Plate beyond the blank, or beyond the last bore. */
const BORDER_MM = 2;

export interface DrillPlate {
  readonly path: string;
  readonly name: string;
  readonly part: string;
  readonly revision: string;
  readonly print: Print;
  /** The blank, seen from in front, and how much of it the plate covers. */
  readonly blank: Extent;
  readonly covered: Extent;
  /** Where along the left and the lower side the blank touches. */
  readonly contact: { readonly left: Contact; readonly low: Contact };
  readonly thicknessMm: number;
  readonly guides: readonly Guide[];
}

/** From one place along a side to another. */
export interface Contact {
  readonly from: number;
  readonly to: number;
}

export interface MadePlate {
  readonly files: readonly EmittedFile[];
  readonly sizeMm: Point;
  readonly windows: number;
}

interface Layout {
  readonly plate: Extent;
  readonly text: Inscription;
}

/**
 * A plate with a bore over each hole and fences along the left and lower side of the blank. Drawn as the drill sees it, the
 * blank behind it with its front to the plate; printed with that face down, so in mirror image, and with the fences up.
 */
export function drillPlate(plan: DrillPlate): MadePlate {
  const { plate, text } = layout(plan);
  const { covered, guides, print } = plan;
  const letters = lettering(print, 'bed');
  const windows = sightWindows(plan.contact, covered, guides);
  const base = without(box(plate.low, plate.high), [...guides.map((g) => bore(g.at, g.boreMm)), ...windows]);
  const at = { x: plate.low.x + MARGIN_MM, y: plate.low.y + MARGIN_MM };
  const floor = guideLengthMm(guides);
  const levels = [
    { flat: without(base, [movedFlat(text.flat, at)]), topMm: letters.depthMm },
    { flat: base, topMm: floor },
    { flat: fences(plan), topMm: floor + plan.thicknessMm + BACKING_MM },
  ].map((level) => ({ ...level, flat: mirroredFlat(level.flat) }));
  const drills = [...new Set(guides.map(({ drillMm }) => short(drillMm)))].join(', ');
  const files = levelsFiles({
    path: plan.path,
    title: `drilling jig of the ${plan.name}`,
    use: `Print one, fences up. Blank front down into the corner, waste wood no larger than the blank behind it, clamp, turn over, drill through the bores (drills: ${drills} mm).`,
    part: plan.part,
    bevelMm: print.elephantFootMm,
    levels,
  });
  return { files, sizeMm: sizeOf(plate), windows: windows.length };
}

/** How large the plate would be. */
export const plateSizeMm = (plan: DrillPlate): Point => sizeOf(layout(plan).plate);

const sizeOf = ({ low, high }: Extent): Point => ({ x: high.x - low.x, y: high.y - low.y });

/** The name stands below the lower fence; the plate is as wide as it needs. */
function layout({ covered, name, revision, guides, print }: DrillPlate): Layout {
  const left = covered.low.x - FENCE_MM;
  const drills = [...new Set(guides.map(({ drillMm }) => short(drillMm)))].join(' ');
  const wordings = [`${name} REV ${revision}`, `DRILL ${drills}`];
  const width = covered.high.x + BORDER_MM - left;
  const text = inscriptionFor(wordings, lettering(print, 'bed'), width - 2 * MARGIN_MM);
  const below = Math.max(FENCE_MM, text.heightMm + 2 * MARGIN_MM);
  return {
    text,
    plate: {
      low: { x: left, y: covered.low.y - below },
      high: { x: left + Math.max(width, text.widthMm + 2 * MARGIN_MM), y: covered.high.y + BORDER_MM },
    },
  };
}

/** A hole close to the edge of the blank goes through them too. */
function fences({ covered: { low, high }, guides }: DrillPlate): Flat {
  const corner = OPEN_CORNER_MM;
  const bars = joined([
    box({ x: low.x - FENCE_MM, y: low.y + corner }, { x: low.x, y: high.y }),
    box({ x: low.x + corner, y: low.y - FENCE_MM }, { x: high.x, y: low.y }),
  ]);
  return without(
    bars,
    guides.map((guide) => bore(guide.at, guide.boreMm)),
  );
}
