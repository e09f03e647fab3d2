import type { Spacer } from '@sheetwave/design';
import { plain } from '@sheetwave/drawings';
import { circularHand, feedDirection, type Part, spacerHeightMm, studTrims } from '@sheetwave/geometry';
import type { Step } from '../document.ts';
import { stackSketch } from '../sketches/stack-so-far.ts';
import { studSketch } from '../sketches/stud.ts';
import { idsOf, partsOnLayer, pathsOf, type StepContext } from './context.ts';
import { step } from './step.ts';

/** Studs that are too long as they are bought. */
export function trimSteps({ assembly }: StepContext): readonly Step[] {
  return studTrims(assembly).map((trim, index) => {
    const part = assembly.parts.find(({ id }) => id === trim.part);
    const spacer = part?.form === 'bought' && part.item.kind === 'spacer' ? part.item : undefined;
    const left = trim.lengthMm - trim.byMm;
    return step({
      id: `trim-${index + 1}`,
      title: trim.kind === 'stud' ? `Trim the studs of ${spacer?.label ?? trim.part}` : 'Use shorter screws',
      parts: [trim.part],
      tools: ['saw', 'files', 'caliper', 'spanner'],
      lines: [
        trim.kind === 'stud'
          ? `Those that go into the spacer under layer ${trim.layer + 1}, ${assembly.elements.length} of them: cut ${plain(trim.byMm)} mm off, which leaves ${plain(left)} mm. As bought they meet what is screwed in from the other end, and neither clamps its sheet.`
          : `Those that go into the spacer under layer ${trim.layer + 1} must be at least ${plain(trim.byMm)} mm shorter than ${plain(trim.lengthMm)} mm, or cut to that.`,
        'Screw a nut on before sawing: taken off over the fresh end it cleans the thread.',
      ],
      check: `Stud ${plain(left)} mm, and a nut runs on by hand.`,
      figure: spacer === undefined ? undefined : studSketch(spacer, trim),
    });
  });
}

/** Spacers of the first layer on the reflector. Empty where the driven patches are etched on it. */
export function footSteps(context: StepContext): readonly Step[] {
  const { assembly } = context;
  const [driven] = assembly.design.layers;
  if (driven?.spacer === undefined) return [];
  const hardware = partsOnLayer(context, 0).filter(isHardware);
  const behind = looseHardware(context).filter(({ id }) => sitsBehind(context, id));
  const stock = driven.spacer.kind === 'stock' ? driven.spacer.spacer : undefined;
  return [
    step({
      id: 'fit-spacers',
      title: 'Set the first spacers on the reflector',
      parts: ['reflector', ...idsOf(hardware), ...idsOf(behind)],
      tools: ['spanner', 'caliper'],
      lines: [
        footing(stock, behind),
        `There are ${assembly.elements.length}, one at the middle of each patch. ${torque(stock)}`,
      ],
      check: `Every spacer stands square; its top is ${plain(spacerHeightMm(driven))} mm over the front, within 0.1 mm.`,
    }),
  ];
}

function footing(stock: Spacer | undefined, behind: readonly Part[]): string {
  const with_ = behind.map(({ name }) => name).join(' and ');
  if (stock === undefined || stock.ends.includes('plain'))
    return `The screws come through from ${behind.length > 0 ? `the back: ${with_}` : 'the front, last of all'}; put the spacers over them for now.`;
  if (stock.ends[0] === 'male') return `Stud through its hole from the front, ${with_} behind.`;
  return `Spacer on the front, held from the back by ${with_}.`;
}

/** Common practice: about half of what steel takes for brass, finger-tight for plastic. */
function torque(stock: Spacer | undefined): string {
  return stock !== undefined && stock.material.conductivitySm > 0
    ? 'Tighten by a nut driver held in two fingers: brass threads strip at half of what steel takes.'
    : 'Finger-tight: plastic threads strip, and a squeezed spacer is a lower one.';
}

const isHardware = (part: Part): boolean => part.form === 'bought' || part.form === 'printed-spacer';

const sitsBehind = ({ assembly }: StepContext, id: string): boolean =>
  assembly.placements.some(({ part, at, layer }) => part === id && layer === undefined && at.z < 0);

/** Screws, nuts and washers that no layer has to itself. */
function looseHardware(context: StepContext): readonly Part[] {
  return partsOnLayer(context, undefined).filter(
    (part) => part.form === 'bought' && part.item.kind !== 'coax' && part.item.kind !== 'connector',
  );
}

/** The driven patches: on, and soldered to their pins. Empty where they are etched on the reflector. */
export function drivenSteps(context: StepContext): readonly Step[] {
  const { assembly } = context;
  const [driven] = assembly.design.layers;
  if (driven === undefined || driven.build.kind === 'on-reflector-board') return [];
  return [
    step({
      id: 'layer-1',
      title: `Set the ${driven.name} patches on`,
      parts: idsOf(partsOnLayer(context, 0)),
      tools: ['spanner', 'caliper', 'iron', 'solder', 'extraction', 'cleaner'],
      files: stackJigs(context),
      lines: [
        `Lower each patch over its pin, ${orientationWords(context)}`,
        `Hold it down for now with ${assembly.design.layers.length > 1 ? 'the next spacer' : 'its screw or nut'}, finger-tight.`,
        'See that the pin stands 0.5 mm out of its hole and in the middle of it, then solder it on the front, all the way round, with little solder. Let it cool before you touch the next.',
        'Wash off the flux.',
      ],
      check: `Underside ${plain(assembly.layerHeights[0]?.bodyUndersideMm ?? 0)} mm over the reflector at all four corners, within 0.1 mm; all patches look the same way.`,
      figure: stackSketch(assembly, 0),
    }),
  ];
}

const stackJigs = (context: StepContext): readonly string[] =>
  pathsOf(context, ['jig-3mf']).filter((path) => /\/(?:stack-jig|height-gauge)/.test(path));

function orientationWords({ assembly }: StepContext): string {
  const below = feedDirection(assembly.design.lattice.orientation).y < 0;
  const side = below ? 'below' : 'to the left of';
  const hand = circularHand(assembly.design);
  const corners =
    hand === undefined ? '' : ` The cut corners make the field ${hand}: every patch the same way, as in the drawing.`;
  return `its feed hole ${side} the centre and its front (the scribed face) toward you.${corners}`;
}

/** The layers over the driven one, and what holds the front. */
export function upperSteps(context: StepContext): readonly Step[] {
  const { layers } = context.assembly.design;
  const upper = layers.slice(1).map((_, index) => upperStep(context, index + 1));
  const front = looseHardware(context).filter(({ id }) => !sitsBehind(context, id));
  if (front.length === 0) return upper;
  const top = layers.at(-1)?.name ?? '';
  return [
    ...upper,
    step({
      id: 'fasten',
      title: 'Fasten the front',
      parts: idsOf(front),
      tools: ['spanner', 'caliper'],
      files: stackJigs(context),
      lines: [
        `Put ${front.map(({ name }) => name).join(' and ')} on the ${top} patch of every stack.`,
        'With the stack in its jig, or with all edges held parallel by hand, tighten from the back forward. Nothing may turn while you tighten: hold the patch.',
      ],
      check:
        'No patch can be turned by hand; edges of all layers are parallel within half a degree (0.2 mm over 25 mm).',
    }),
  ];
}

function upperStep(context: StepContext, layer: number): Step {
  const { assembly } = context;
  const of = assembly.design.layers[layer];
  if (of === undefined) throw new RangeError(`no layer ${layer}`);
  const { name, build, shape } = of;
  const isRound = shape.kind === 'circle' || shape.kind === 'ring';
  const height = assembly.layerHeights[layer];
  const copper =
    build.kind === 'board'
      ? ` Copper side ${build.copperSide === 'inward' ? 'toward the reflector' : 'toward the sky'}.`
      : '';
  return step({
    id: `layer-${layer + 1}`,
    title: `Add the ${name} patches`,
    parts: idsOf(partsOnLayer(context, layer)),
    tools: ['spanner', 'caliper'],
    files: stackJigs(context),
    lines: [
      `Screw the next spacer in, lay the ${name} patch on it with its front (the scribed face) toward you${isRound ? '' : ', its upper edge up'}.${copper}`,
      `Its centre hole is on the axis of the stack${isRound ? '; how it is turned does not matter' : '; its edges are parallel to those of the patch below'}.`,
    ],
    check: `Underside ${plain(height?.bodyUndersideMm ?? 0)} mm over the reflector, within 0.1 mm; parallel to the layer below.`,
    figure: stackSketch(assembly, layer),
  });
}
