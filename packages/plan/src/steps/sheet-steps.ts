import { bendLines, type FlatPart, groupHoles, plain } from '@sheetwave/drawings';
import type { PlatePart } from '@sheetwave/geometry';
import type { Step } from '../document.ts';
import { burrSketch } from '../sketches/burr.ts';
import { pathsOf, platesOf, type StepContext } from './context.ts';
import { step } from './step.ts';

/** From sheet to flat parts without burr: by hand part by part, by a shop all at once. */
export function sheetSteps(context: StepContext): readonly Step[] {
  const plates = platesOf(context);
  if (plates.length === 0) return [];
  const [hand, shop] = [plates.filter(byHand), plates.filter((part) => !byHand(part))];
  return [
    ...(shop.length > 0 ? [haveCut(context, shop)] : []),
    ...hand.map((part) => cutByHand(context, part)),
    deburr(plates, shop),
    ...plates.flatMap((part) => fold(context, part)),
  ];
}

const byHand = ({ process }: PlatePart): boolean => process.id === 'hand';

function haveCut(context: StepContext, plates: readonly PlatePart[]): Step {
  const ids = plates.map(({ id }) => id);
  const cut = pathsOf(context, ['cut-dxf']).filter((path) => ids.some((id) => path === `cut/${id}.dxf`));
  const compensated = plates.filter(({ process }) => process.compensateKerf);
  const stocks = [...new Set(plates.map(({ sheet }) => sheet.label))];
  return step({
    id: 'have-sheets-cut',
    title: 'Have the sheet parts cut',
    parts: ids,
    tools: ['caliper', 'gloves'],
    files: [...cut, ...pathsOf(context, ['sheet-dxf'])],
    lines: [
      `Order from ${stocks.join(' and ')}: ${plates.map((part) => `${part.quantity} of ${part.name}`).join(', ')}.`,
      'Say that the drawings are in millimetres and at 1:1. The files named sheet-… hold the same parts laid out on the sheets to buy: send those or the single parts, not both.',
      compensated.length > 0
        ? `These carry the path of the tool, half the kerf outside the finished outline: ${compensated.map(({ name }) => name).join(', ')}. The shop must not correct them again.`
        : 'The files show the finished outline: the shop corrects for the width of its cut.',
      'Ask for no marks or stickers on the faces, and for small parts to be left on their bridges.',
    ],
    check: `Measure one part of each kind against its drawing: ${plates.map((part) => `${part.name} ± ${plain(part.process.toleranceMm)} mm`).join(', ')}.`,
  });
}

function cutByHand(context: StepContext, part: PlatePart): Step {
  const { name, quantity, sheet, process } = part;
  const guide = pathsOf(context, ['jig-3mf'], part.id).filter((path) => path.includes('/drill-'));
  const each = quantity === 1 ? '' : `, ${quantity} times`;
  return step({
    id: `cut-${part.id}`,
    title: `Drill, then cut out the ${name}${each}`,
    parts: [part.id],
    tools: ['glue', 'punch', 'drill', 'boards', 'saw', 'files', 'caliper', 'gloves', 'glasses', 'brush'],
    files: [...pathsOf(context, ['template-pdf', 'drill-map-pdf'], part.id), ...guide],
    lines: [
      `Glue ${quantity === 1 ? 'the template' : `${quantity} copies of the template`} on ${sheet.label}, with at least ${plain(process.spacingMm)} mm between parts. The printed side is the front.`,
      ...drilling(part),
      ...(guide.length > 0
        ? ['The printed drilling guide can take the place of punch marks: clamp it to the front, edges flush.']
        : []),
      process.allowanceMm > 0
        ? `Only then cut out: saw ${plain(process.allowanceMm)} mm outside the line and file to it.`
        : 'Only then cut out, on the line.',
      ...(part.outline.cutouts.length > 0
        ? ['Cut the openings before the outside, from a hole drilled inside each.']
        : []),
      'Before you soak off the paper, scribe a small mark on the front beside the edge the template calls the feed edge, or the upper edge.',
    ],
    check: `Outside size within ± ${plain(process.toleranceMm)} mm of the drawing; every hole takes its screw or pin without force.`,
  });
}

function drilling(part: FlatPart): readonly string[] {
  const groups = groupHoles(part.outline.holes);
  if (groups.length === 0) return [];
  const each = groups.map(
    ({ letter, diameterMm, holes, purpose }) => `${letter} ${holes.length} × Ø ${plain(diameterMm)} mm (${purpose})`,
  );
  return [
    `Drill while the sheet is whole. Centre-punch every cross, clamp the sheet between two boards, start with a small drill: ${each.join('; ')}.`,
  ];
}

function deburr(plates: readonly PlatePart[], shop: readonly PlatePart[]): Step {
  return step({
    id: 'deburr',
    title: 'Take off the burr, and know which side it was on',
    parts: plates.map(({ id }) => id),
    tools: ['files', 'glass', 'gloves', 'cleaner', 'brush'],
    lines: [
      ...(shop.length > 0 ? ['Cut and file off the bridges.'] : []),
      'File off the burr on both faces and around every hole; break the outer edges, no more than 0.2 mm.',
      'A burr that cannot be seen can still be felt. Where a trace stays, it looks away from the gap: on a patch toward the sky, on the reflector toward the back. The face on the spacer is the smooth one.',
      'Rub the faces bright with fine abrasive paper, wash, and wipe with isopropanol. From now on hold parts by their edges.',
    ],
    check: 'Laid on glass with its smooth face down, no part rocks, and no hole has a rim.',
    figure: burrSketch(),
  });
}

function fold(context: StepContext, part: PlatePart): readonly Step[] {
  const bends = bendLines(part);
  const [first] = bends;
  if (first === undefined) return [];
  const { fold: edges } = context.assembly.design.reflector;
  const height = edges === undefined ? '' : ` Each folded edge is ${plain(edges.heightMm)} mm high over all.`;
  return [
    step({
      id: `fold-${part.id}`,
      title: `Fold the edges of the ${part.name}`,
      parts: [part.id],
      tools: ['bender', 'square', 'caliper', 'gloves'],
      files: pathsOf(context, ['template-pdf'], part.id),
      lines: [
        `Drill everything first: the holes are hard to reach afterwards. There ${bends.length === 1 ? 'is one bend' : `are ${bends.length} bends`}; each line is the middle of its bend.`,
        `${[...new Set(bends.map(({ words }) => words))].join('; ')}; up is toward the front.${height}`,
        'Clamp to the line, bend in one movement, a degree or two beyond the square, and let it spring back.',
      ],
      check: 'The face is flat within 0.5 mm, and every edge is square to it.',
    }),
  ];
}
