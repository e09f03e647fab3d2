import { type Assembly, bounds, flattenContour, type PlatePart, type Point } from '@sheetwave/geometry';
import { crowded, type Guide, type Guides, guidesFor } from './drill-guides.ts';
import { type DrillPlate, drillPlate, plateSizeMm } from './drill-plate.ts';
import type { Extent } from './flat-shapes.ts';
import { type Print, type Printed, short } from './print.ts';
import { repeatedHoles, stepJig } from './step-jig.ts';

/** Beyond the last bore of a plate that covers a part of its blank. */
const BEYOND_BORE_MM = 4;
/** A side touches its fence where it comes this near. */
const TOUCH_MM = 0.05;

/**
 * A drilling jig for every patch and for the reflector, where they are cut by hand: what a laser, a jet or a mill cuts has its
 * holes already. A reflector larger than the bed gets one for its lower left corner, and one that steps on from hole to hole.
 */
export function drillJigs(assembly: Assembly): Printed {
  const made = assembly.parts.map((part) =>
    part.form === 'plate' && part.role !== 'strip' && part.process.id === 'hand' && part.outline.holes.length > 0
      ? jigsOf(assembly, part)
      : nothing,
  );
  return { files: made.flatMap(({ files }) => files), notes: made.flatMap(({ notes }) => notes) };
}

const nothing: Printed = { files: [], notes: [] };

function jigsOf(assembly: Assembly, part: PlatePart): Printed {
  const { print } = assembly.design;
  const { guides, notes } = guidesThatFit(part, print);
  const pair = crowded(guides);
  if (pair !== undefined)
    return leftOut(part, `bores of ${short(pair[0].boreMm)} and ${short(pair[1].boreMm)} mm would meet`);
  const whole = planOf(assembly, part, guides);
  if (fits(plateSizeMm(whole), print)) return withNotes(plateOf(whole), notes);
  if (part.role !== 'reflector') return leftOut(part, tooLarge(plateSizeMm(whole), print));
  return withNotes(largeReflector(assembly, part, whole), notes);
}

/** Without bushings where these would meet. */
function guidesThatFit(part: PlatePart, print: Print): Guides {
  const made = guidesFor(part.outline.holes, print, part.name);
  if (print.bushingMm === undefined || crowded(made.guides) === undefined) return made;
  const plain = guidesFor(part.outline.holes, { ...print, bushingMm: undefined }, part.name);
  const note = `drilling jig of ${part.name}: bushings of ${short(print.bushingMm)} mm would meet, so its bores guide the drills themselves`;
  return { guides: plain.guides, notes: [note, ...plain.notes] };
}

const withNotes = (printed: Printed, notes: readonly string[]): Printed => ({
  ...printed,
  notes: [...notes, ...printed.notes],
});

function plateOf(plan: DrillPlate): Printed {
  const { files, windows } = drillPlate(plan);
  const lacking = windows < 2 ? [`drilling jig of ${plan.name}: room for ${windows} of 2 sight windows`] : [];
  return { files, notes: lacking };
}

function planOf(assembly: Assembly, part: PlatePart, guides: readonly Guide[]): DrillPlate {
  const box = bounds(part.outline.outer);
  const blank = { low: { x: box.minX, y: box.minY }, high: { x: box.maxX, y: box.maxY } };
  const corners = flattenContour(part.outline.outer, { toleranceMm: 0.005, corners: 'on' });
  return {
    path: `jigs/drill-${part.id}`,
    name: part.name,
    part: part.id,
    revision: assembly.design.revision,
    print: assembly.design.print,
    blank,
    covered: blank,
    contact: {
      left: span(corners.filter(({ x }) => x < box.minX + TOUCH_MM).map(({ y }) => y)),
      low: span(corners.filter(({ y }) => y < box.minY + TOUCH_MM).map(({ x }) => x)),
    },
    thicknessMm: part.sheet.thicknessMm,
    guides,
  };
}

const span = (values: readonly number[]) => ({ from: Math.min(...values), to: Math.max(...values) });

function largeReflector(assembly: Assembly, part: PlatePart, whole: DrillPlate): Printed {
  const { print } = assembly.design;
  const corner = cornerPlan(whole, print);
  const cornerJig = corner === undefined ? nothing : plateOf(corner);
  const repeated = repeatedHoles(assembly, part.outline.holes);
  const step = stepJig(assembly, part, repeated);
  const reached = new Set([
    ...(corner?.guides ?? []).map(({ at }) => at),
    ...(step.files.length > 0 ? repeated.all : []),
  ]);
  const beyond = part.outline.holes.filter(({ centre }) => !reached.has(centre)).length;
  const size = plateSizeMm(whole);
  const notes = [
    `drilling jig of ${part.name}: one for the whole would be ${tooLarge(size, print)}; ${cornerJig.files.length > 0 ? `one for its lower left corner guides ${corner?.guides.length} of ${whole.guides.length} holes` : 'no corner of it fits either'}`,
    ...startNote(part, step, repeated.all.filter((at) => corner?.guides.some((guide) => guide.at === at)).length),
    ...(beyond > 0 ? [`drilling jigs of ${part.name} do not reach ${beyond} holes: mark them from the drill map`] : []),
  ];
  return {
    files: [...cornerJig.files, ...step.files],
    notes: [...notes, ...cornerJig.notes, ...step.notes],
  };
}

/** Two holes are pinned: those that the corner jig does not give are marked. */
function startNote(part: PlatePart, step: Printed, given: number): readonly string[] {
  if (step.files.length === 0 || given >= 2) return [];
  return [
    `drilling jig that steps over the ${part.name}: it starts from two drilled holes, mark ${2 - given} of them from the drill map`,
  ];
}

/** As much of the lower left corner as the bed takes, up to just past the last hole there. */
function cornerPlan(whole: DrillPlate, print: Print): DrillPlate | undefined {
  let { guides } = whole;
  while (guides.length > 0) {
    const plan = {
      ...whole,
      path: `${whole.path}-corner`,
      name: `${whole.name} corner`,
      guides,
      ...coveredBy(whole, guides),
    };
    const size = plateSizeMm(plan);
    if (fits(size, print)) return plan;
    const far = farthest(guides, size.x - print.bedMm.x > size.y - print.bedMm.y ? 'x' : 'y');
    guides = guides.filter((guide) => guide.at[far.axis] < far.at - 1e-6);
  }
  return undefined;
}

function farthest(guides: readonly Guide[], axis: 'x' | 'y') {
  return { axis, at: Math.max(...guides.map(({ at }) => at[axis])) };
}

function coveredBy({ blank, contact }: DrillPlate, guides: readonly Guide[]): Pick<DrillPlate, 'covered' | 'contact'> {
  const past = (axis: 'x' | 'y'): number =>
    Math.min(blank.high[axis], Math.max(...guides.map(({ at, boreMm }) => at[axis] + boreMm / 2 + BEYOND_BORE_MM)));
  const high: Point = { x: past('x'), y: past('y') };
  const covered: Extent = { low: blank.low, high };
  return {
    covered,
    contact: {
      left: { from: contact.left.from, to: Math.min(contact.left.to, high.y) },
      low: { from: contact.low.from, to: Math.min(contact.low.to, high.x) },
    },
  };
}

const fits = (size: Point, { bedMm }: Print): boolean =>
  (size.x <= bedMm.x && size.y <= bedMm.y) || (size.x <= bedMm.y && size.y <= bedMm.x);

const tooLarge = (size: Point, { bedMm }: Print): string =>
  `${short(size.x)} x ${short(size.y)} mm, more than the bed of ${short(bedMm.x)} x ${short(bedMm.y)} mm`;

const leftOut = (part: PlatePart, why: string): Printed => ({
  files: [],
  notes: [`drilling jig of ${part.name} left out: ${why}`],
});
