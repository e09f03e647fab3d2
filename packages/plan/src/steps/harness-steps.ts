import { plain } from '@sheetwave/drawings';
import type { RodPart, TubePart } from '@sheetwave/geometry';
import type { Step } from '../document.ts';
import { harnessSketch } from '../sketches/harness-plan.ts';
import { pathsOf, type StepContext } from './context.ts';
import { harnessLevels, stretchWords } from './harness-levels.ts';
import { step } from './step.ts';

/** Rods and tubes: cut, bent. Nothing for a harness that is cut from sheet or etched, unless it has probe pins. */
export function rodSteps(context: StepContext): readonly Step[] {
  const rods = rodsOf(context);
  const tubes = tubesOf(context);
  if (rods.length === 0) return [];
  const bent = rods.filter(({ bends }) => bends.length > 0);
  return [cutRods(rods, tubes), ...(bent.length > 0 ? [bendRods(context, bent)] : [])];
}

const rodsOf = ({ assembly }: StepContext): readonly RodPart[] =>
  assembly.parts.flatMap((part) => (part.form === 'rod' ? [part] : []));

const tubesOf = ({ assembly }: StepContext): readonly TubePart[] =>
  assembly.parts.flatMap((part) => (part.form === 'tube' ? [part] : []));

function cutRods(rods: readonly RodPart[], tubes: readonly TubePart[]): Step {
  const lengths = [
    ...rods.map(
      (rod) =>
        `${rod.name}, ${pieces(rod)}: Ø ${plain(rod.rod.diameterMm)} mm, ${plain(rod.developedLengthMm)} mm long`,
    ),
    ...tubes.map(
      (tube) => `${tube.name}, ${pieces(tube)}: Ø ${plain(tube.tube.outerMm)} mm, ${plain(tube.lengthMm)} mm long`,
    ),
  ];
  const names = tubes.length > 0 ? 'rods and tubes' : 'rods';
  return step({
    id: 'cut-rods',
    title: `Cut the ${names} to length`,
    parts: [...rods, ...tubes].map(({ id }) => id),
    tools: ['saw', 'files', 'caliper', 'cleaner'],
    lines: [
      ...lines(lengths),
      'Straighten the rod first: roll it on a flat plate. Cut 1 mm long and file the ends square to length.',
      ...(tubes.length > 0 ? ['Ream the tubes so that they slide on their rods without play; tin neither yet.'] : []),
    ],
    check: 'Every length within 0.1 mm: it sets the phase of its branch.',
  });
}

const pieces = ({ quantity }: RodPart | TubePart): string => (quantity === 1 ? 'one piece' : `${quantity} pieces`);

const lines = (items: readonly string[]): readonly string[] => items.map((item) => `${item}.`);

function bendRods(context: StepContext, rods: readonly RodPart[]): Step {
  const jigs = pathsOf(context, ['jig-3mf']).filter((path) => path.includes('/bend-'));
  return step({
    id: 'bend-rods',
    title: 'Bend the rods',
    parts: rods.map(({ id }) => id),
    tools: ['pliers', 'caliper', 'square'],
    files: jigs,
    lines: [
      ...rods.map(
        ({ name, bends, bendRadiusMm }) =>
          `${name}: middles of the bends at ${bends.map(({ atMm }) => plain(atMm)).join(', ')} mm from one end of the blank, inside radius ${plain(bendRadiusMm)} mm.`,
      ),
      'Mark the middles with a fine pen, not with a scriber: brass breaks where it is scratched.',
      ...tubesBetweenBends(context, rods),
      'Bend a little beyond the angle, let go, compare with the drawing laid under it.',
      ...(jigs.length > 0 ? ['The printed gauges carry the marks, and the blocks the radius and the angle.'] : []),
    ],
    check: 'Laid on its drawing at its scale, the rod covers it; all of a kind lie on each other within 0.2 mm.',
  });
}

/** A tube that goes on a bent rod has to be there before the last bend is made. */
function tubesBetweenBends(context: StepContext, rods: readonly RodPart[]): readonly string[] {
  return tubesOf(context).flatMap((tube) => {
    const level = /^tube-level-(\d+)$/.exec(tube.id)?.[1];
    const rod = rods.find(({ id }) => id === `rod-level-${level}`);
    return rod === undefined ? [] : [`Slide the ${tube.name} on the ${rod.name} before its second bend.`];
  });
}

/** Where the wider stretch of each level begins and ends. */
function tubePlaces({ assembly }: StepContext): string {
  const told = harnessLevels(assembly).flatMap((level) =>
    level.stretches.flatMap((one) => (one.role === 'section' ? [stretchWords(level, one)] : [])),
  );
  return told.join('; ');
}

/** The harness put together at its height over the reflector. Empty where it is etched or there is none. */
export function harnessSteps(context: StepContext): readonly Step[] {
  const { harness } = context.assembly.design;
  if (harness.kind === 'none' || harness.kind === 'microstrip') return [];
  const saddles = pathsOf(context, ['jig-3mf']).filter((path) => path.includes('/saddle-'));
  const strips = context.assembly.parts.filter((part) => part.form === 'plate' && part.role === 'strip');
  const rods = rodsOf(context);
  const tubes = tubesOf(context);
  const height =
    harness.kind === 'rod'
      ? `axis ${plain(harness.heightMm)} mm over the reflector`
      : `underside ${plain(harness.heightMm)} mm over the reflector`;
  const probes = rods.filter(({ role }) => role === 'probe');
  return [
    step({
      id: 'solder-harness',
      title: 'Put the harness together in its stand, and solder it',
      parts: [...rods, ...tubes, ...strips].map(({ id }) => id),
      tools: ['iron', 'solder', 'extraction', 'caliper', 'pliers', 'cleaner', 'glasses'],
      files: saddles,
      lines: [
        ...(probes.length > 0
          ? [
              `Solder the ${probes.reduce((sum, one) => sum + one.quantity, 0)} probe pins into the strip first: square to it, flush below.`,
            ]
          : []),
        saddles.length > 0
          ? 'Stand the printed saddles on the front of the reflector under the straight stretches, clear of the joints.'
          : 'Cut packing strips that hold the harness at its height, and lay them under the straight stretches, clear of the joints.',
        `Height: ${height}, everywhere. It sets the impedance of every line.`,
        ...(tubes.length > 0
          ? [`Slide each tube to its place: ${tubePlaces(context)}. Solder both its ends, all the way round.`]
          : []),
        'The first joint is that to the pin of the coax.',
        ...(harness.kind === 'rod' && rods.length > 1
          ? [
              'From there go outward, level by level. An end butts against the middle of the rod of the next level: no gap, and no more solder than a thin fillet.',
            ]
          : []),
        ...(rods.some(({ role, bends }) => role === 'harness' && bends.length > 0)
          ? ['The bent ends point away from the reflector, toward you: they are the pins of the driven patches.']
          : []),
        ...(harness.kind === 'strip' ? ['The strip lies burr side up, as the patches do.'] : []),
        'Check both directions before each joint: the ends must point at the feed holes of the driven patches. Lay a driven patch on its spacer as a gauge.',
        'Wash off the flux: what stays under a pin costs power.',
      ],
      check: `Seen from the side the harness is level within 0.1 mm; every end meets the feed hole of its patch without force.`,
      figure: harnessSketch(context.assembly),
    }),
  ];
}
