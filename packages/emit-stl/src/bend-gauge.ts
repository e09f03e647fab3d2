import type { Flat, RodPart } from '@sheetwave/geometry';
import type { BendMark, BendPlan } from './bend-plan.ts';
import { type Inscription, inscription, inscriptionFor, lettering, MARGIN_MM } from './engraving.ts';
import { box, type Extent, movedFlat, without } from './flat-shapes.ts';
import { levelsFiles } from './levels-file.ts';
import { type Print, type Printed, short } from './print.ts';

const FLOOR_MM = 3;
/** Wall behind the end of the blank, at least. */
const STOP_MM = 6;
const RAIL_MM = 8;
/** How high the rails stand past the rod's upper side. */
const PAST_ROD_MM = 0.5;

export interface RodJig {
  readonly rod: RodPart;
  readonly plan: BendPlan;
  readonly print: Print;
  readonly revision: string;
}

/**
 * A groove with a stop for the end of the blank. It ends where the blank is to be sawn off, and a line crosses it where each
 * bend begins, with the bend's number on the side that is held while it is made.
 */
export function bendGauge(jig: RodJig): Printed {
  const { rod, print } = jig;
  const { low, high, text } = layout(jig);
  const size = { x: high.x - low.x, y: high.y - low.y };
  if (size.x > print.bedMm.x || size.y > print.bedMm.y)
    return {
      files: [],
      notes: [
        `bending gauge of ${rod.name} left out: at ${short(size.x)} mm it is longer than the bed of ${short(print.bedMm.x)} mm; mark the bends with a rule`,
      ],
    };
  const letters = lettering(print);
  const half = rod.rod.diameterMm / 2 + print.fitClearanceMm;
  const rails = without(box(low, high), [box({ x: 0, y: -half }, { x: high.x + 1, y: half })]);
  const lines = jig.plan.marks.map((mark) => lineAt(mark.atMm, letters.penMm, { low, high }));
  const numbers = numberFlats(jig, low.y);
  const name = movedFlat(text.flat, { x: low.x + MARGIN_MM, y: high.y - MARGIN_MM - text.heightMm });
  const top = FLOOR_MM + rod.rod.diameterMm + PAST_ROD_MM;
  const files = levelsFiles({
    path: `jigs/bend-gauge-${rod.id}`,
    title: `bending gauge of ${rod.name}`,
    use: `Print one. Lay the rod in the groove against the stop, saw it off flush with the open end (${short(rod.developedLengthMm)} mm), and scribe it at each line.`,
    part: rod.id,
    bevelMm: print.elephantFootMm,
    levels: [
      { flat: box(low, high), topMm: FLOOR_MM },
      { flat: rails, topMm: top - letters.depthMm },
      { flat: without(rails, [...lines, ...numbers.flats, name]), topMm: top },
    ],
  });
  return { files, notes: numbers.notes };
}

/** The stop at x = 0, the axis of the rod along y = 0. */
function layout({ rod, print, revision }: RodJig): Extent & { readonly text: Inscription } {
  const letters = lettering(print);
  const half = rod.rod.diameterMm / 2 + print.fitClearanceMm;
  const wordings = [`${rod.id} REV ${revision}`, `L ${short(rod.developedLengthMm)}`];
  const text = inscriptionFor(wordings, letters, rod.developedLengthMm + STOP_MM - 2 * MARGIN_MM);
  // Lines cross both rails; the name stands above them.
  return {
    text,
    low: { x: Math.min(-STOP_MM, rod.developedLengthMm - text.widthMm - 2 * MARGIN_MM), y: -half - RAIL_MM },
    high: { x: rod.developedLengthMm, y: half + RAIL_MM / 2 + text.heightMm + 2 * MARGIN_MM },
  };
}

/** Across the lower rail and the near part of the upper one. */
function lineAt(x: number, widthMm: number, { low }: Extent): Flat {
  return box({ x: x - widthMm / 2, y: low.y - 1 }, { x: x + widthMm / 2, y: -low.y - RAIL_MM / 2 });
}

function numberFlats(
  { plan, print, rod }: RodJig,
  lowY: number,
): { readonly flats: readonly Flat[]; readonly notes: readonly string[] } {
  const letters = lettering(print);
  const heightMm = letters.heightsMm.at(-1) ?? 0;
  const placed = plan.marks.map((mark) => {
    const text = inscription([`${mark.order}`], letters, heightMm);
    const x =
      mark.held === 'far-side' ? mark.atMm + letters.penMm + 0.5 : mark.atMm - letters.penMm - 0.5 - text.widthMm;
    return { mark, flat: movedFlat(text.flat, { x, y: lowY + MARGIN_MM }), from: x, to: x + text.widthMm };
  });
  const fits = ({ mark, from, to }: (typeof placed)[number], others: readonly BendMark[]): boolean =>
    to < rod.developedLengthMm - 0.5 &&
    others.every((other) => other === mark || other.atMm + letters.penMm < from || other.atMm - letters.penMm > to);
  const kept = placed.filter(
    (each, i) =>
      fits(each, plan.marks) &&
      placed.slice(0, i).every((other) => other.to + 0.5 < each.from || other.from - 0.5 > each.to),
  );
  const lost = placed.length - kept.length;
  return {
    flats: kept.map(({ flat }) => flat),
    notes: lost > 0 ? [`bending gauge of ${rod.name}: ${lost} lines are too close to bear their numbers`] : [],
  };
}
