import { plain } from '@sheetwave/drawings';
import { list, type PlanBlock, paragraph, type Section, table } from '../document.ts';
import { type Effect, type Effects, effectsOf } from '../exactness/effects.ts';
import { growthText, heldBy, heldText, shiftText, sizeText, toleranceText } from '../exactness/words.ts';
import type { PlanInput } from '../input.ts';

/** Which dimensions must be exact, and which need not be. */
export function tolerances(input: PlanInput): Section {
  const found = effectsOf(input);
  return {
    id: 'tolerances',
    title: 'What must be exact, and what need not be',
    blocks: [
      ...(found.effects.length === 0 ? [paragraph(NONE)] : known(input, found)),
      ...(found.origin === 'closed-forms' ? [paragraph(HOW_TO_SOLVE)] : []),
      paragraph('Without a number of their own, by common practice:'),
      list(practice(input)),
    ],
  };
}

const NONE =
  'No closed form knows this shape, so there is no number for what a tenth of a millimetre does. Hold every dimension of the patches and every height as well as you can.';

const HOW_TO_SOLVE =
  'The command “sheetwave sensitivity” solves the fields for every dimension of this design and keeps what it finds; “sheetwave make” then puts those numbers here, into the drawings, and into the advice on the sweep.';

const HEAD = [
  'dimension',
  'size',
  'workshop holds',
  'a step more shifts by',
  'so it may be off by',
  'verdict',
] as const;

function known(input: PlanInput, found: Effects): readonly PlanBlock[] {
  const bandMhz = bandMhzOf(input);
  const isSolved = found.origin !== 'closed-forms';
  const head = isSolved ? [...HEAD.slice(0, 4), 'worst reflection', ...HEAD.slice(4)] : HEAD;
  return [
    paragraph(
      `The band is ${plain(bandMhz, 0)} MHz wide. ${originWords(input, found)} A step is 0.1 mm, of a permittivity 1 %. “Off by up to” is what the workshop may make of it, both ways.`,
    ),
    table(
      'What a tenth of a millimetre does',
      head,
      sorted(found.effects, bandMhz).map((effect) => rowOf(effect, { bandMhz, isSolved })),
    ),
    ...(isSolved && found.unknown.length > 0
      ? [paragraph(`Not solved for: ${found.unknown.map(({ words }) => words).join('; ')}.`)]
      : []),
  ];
}

const bandMhzOf = ({ assembly: { design } }: PlanInput): number => (design.band.highHz - design.band.lowHz) / 1e6;

function originWords({ assembly }: PlanInput, { origin }: Effects): string {
  if (origin !== 'closed-forms')
    return `From field solutions of this very antenna with each dimension a little larger and a little smaller (${origin} grid; sensitivities.json in the pack). The error is half of what the slopes to either side differ by.`;
  const stack =
    assembly.design.layers.length > 1
      ? ' Parasitic patches are not in it: hold their lengths and heights as closely as those of the driven one.'
      : '';
  return `From closed formulas for the driven patch.${stack}`;
}

/** What moves the antenna most first. */
const sorted = (effects: readonly Effect[], bandMhz: number): readonly Effect[] =>
  [...effects].sort((a, b) => heldBy(b, bandMhz).mhz - heldBy(a, bandMhz).mhz);

function rowOf(effect: Effect, { bandMhz, isSolved }: { readonly bandMhz: number; readonly isSolved: boolean }) {
  const held = heldBy(effect, bandMhz);
  return [
    effect.dimension.words,
    sizeText(effect),
    toleranceText(effect),
    shiftText(effect),
    ...(isSolved ? [growthText(effect.db)] : []),
    heldText(held),
    held.verdict,
  ];
}

/** The dimensions of one part that a tool sets, with what they may be off by; empty when nothing is known of it. */
export function exactnessOf(input: PlanInput, part: string): readonly PlanBlock[] {
  const bandMhz = bandMhzOf(input);
  const rows = effectsOf(input)
    .effects.filter((effect) => effect.part === part)
    .map((effect) => {
      const held = heldBy(effect, bandMhz);
      return [effect.dimension.words, sizeText(effect), toleranceText(effect), heldText(held), held.verdict];
    });
  if (rows.length === 0) return [];
  const head = ['dimension', 'size', 'workshop holds', 'antenna off by up to', 'verdict'];
  return [table('How exact', head, rows)];
}

function practice({ assembly }: PlanInput): readonly string[] {
  const { harness, layers } = assembly.design;
  return [
    'Alike matters more than exact: pieces of one kind filed together in a stack may all be 0.1 mm off, but not one of them alone.',
    ...(harness.kind === 'rod' || harness.kind === 'strip'
      ? ['Height of the harness: within 0.1 mm; lengths of its branches alike within 0.2 mm.']
      : []),
    ...(layers.length > 1 ? ['Centres of the layers of one stack: within 0.2 mm; edges parallel by eye.'] : []),
    'Outside of the reflector, its corners and mounting holes: 1 mm either way changes nothing that can be measured.',
    'Holes for screws: only that the screw goes through and the stack sits in its place.',
    'Bright or dull: tarnish does not matter, flux under a pin does.',
  ];
}
