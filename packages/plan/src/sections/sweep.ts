import { plain } from '@sheetwave/drawings';
import { reflectionCurve } from '@sheetwave/plots';
import { figureBlock, list, type PlanBlock, paragraph, type Section, table } from '../document.ts';
import { type Effect, effectsOf } from '../exactness/effects.ts';
import { growthText, heldBy, shiftText, stepText } from '../exactness/words.ts';
import type { PlanInput } from '../input.ts';
import { isEtched } from '../steps/check-steps.ts';
import { returnLossDb } from '../steps/sweep-steps.ts';
import { reflectionFigure } from './reflection-figure.ts';

/** What the sweep should look like, and what to do when it does not. */
export function sweepSection(input: PlanInput): Section {
  const { design } = input.assembly;
  return {
    id: 'sweep-advice',
    title: 'The sweep: what it should look like, and what to do if not',
    blocks: [
      paragraph(looks(input)),
      ...estimatedCurve(input),
      table('What you see, what it is, what to do', ['the sweep shows', 'most likely', 'do this'], troubles(input)),
      ...filing(input),
      paragraph(
        'Change one thing at a time, by steps of 0.1 mm, and keep every sweep with the revision it belongs to. When the sweep is right, write the new sizes into the design file and raise its revision, so that this plan and the antenna agree.',
      ),
      ...(design.layers.length > 1 ? [list(STACK)] : []),
    ],
  };
}

const ghz = (hz: number): string => plain(hz / 1e9, 3);

function looks({ assembly, prediction, estimate }: PlanInput): string {
  const { band, targets, layers } = assembly.design;
  const goal = `S11 stays below ${plain(-returnLossDb(targets.vswr), 1)} dB (VSWR ${plain(targets.vswr)}) from ${ghz(band.lowHz)} to ${ghz(band.highHz)} GHz.`;
  const known =
    prediction !== undefined
      ? ' Compare with the predicted curve at the beginning of this plan.'
      : estimate.response !== undefined
        ? ' One dip is expected.'
        : '';
  const shape =
    layers.length > 1
      ? ` A stack of ${layers.length} patches has up to ${layers.length} dips that lie in or near the band and may run into one; on a Smith chart each is a loop.`
      : ' One patch has one dip; on a Smith chart its curve is one loop or part of a circle.';
  return `${goal}${shape}${known}`;
}

/** Where nothing was predicted, the curve of the closed forms, if they have one: its shape is worth more than its place. */
function estimatedCurve({ assembly, prediction, estimate: { response } }: PlanInput): readonly PlanBlock[] {
  if (prediction !== undefined || response === undefined) return [];
  const { band, targets } = assembly.design;
  const curves = [reflectionCurve('estimate', response)];
  return [
    figureBlock(reflectionFigure({ curves, band, vswr: targets.vswr }, { id: 'plot-estimate', by: 'Estimated' })),
    paragraph(
      'This curve is of closed formulas, not of a field solution: expect its shape, and its dip somewhere within the shaded stretch.',
    ),
  ];
}

function troubles({ assembly }: PlanInput): readonly (readonly string[])[] {
  const { feed, harness } = assembly.design;
  const etched = isEtched(assembly);
  return [
    [
      'total reflection everywhere, 0 dB',
      'an open or a short',
      'back to the meter: connector, pin, harness; then the calibration',
    ],
    [
      'the dip is right in shape but too low in frequency',
      'patches too long, or gaps too wide',
      etched
        ? 'shorten both ends of every patch alike, with a sharp knife'
        : 'file the patches shorter at both ends alike, as the table below says',
    ],
    [
      'the dip is too high in frequency',
      'patches too short, or gaps too narrow',
      'measure gaps first; then longer patches. Metal cannot be filed on',
    ],
    [
      'the dip is in the band but not deep enough',
      'the feed sits at the wrong resistance',
      feed.kind === 'probe'
        ? 'the next set of driven patches gets its feed hole further in (less resistance) or out (more)'
        : 'the inset is too deep (less resistance) or too shallow',
    ],
    ...(harness.kind === 'none'
      ? []
      : [
          [
            'two or more dips where one belongs, or a ragged band',
            'the branches of the harness differ',
            'compare the lengths and heights of the branches; look for a cold joint; touch one patch after the other: each should change the curve alike',
          ] as const,
        ]),
    [
      'the curve moves when the cable moves',
      'current on the outside of the cable',
      'look at the joint of jacket and reflector: closed all round?',
    ],
    [
      'fine ripple over the whole sweep',
      'reflections in the room, or a poor calibration',
      'turn the antenna to open sky; calibrate again at the antenna’s end of the cable',
    ],
    [
      'in the band, but little gain',
      'a patch out of phase or turned',
      'compare orientation of every patch with the drawing from the front',
    ],
  ];
}

/** What a file, a knife or another spacer does to the curve; what cannot be seen in it is left out. */
function filing(input: PlanInput): readonly PlanBlock[] {
  const { band } = input.assembly.design;
  const bandMhz = (band.highHz - band.lowHz) / 1e6;
  const { effects, origin } = effectsOf(input);
  const shown = effects.filter((effect) => heldBy(effect, bandMhz).verdict !== 'does not matter');
  if (shown.length === 0) return [];
  const isSolved = origin !== 'closed-forms';
  const head = ['change', 'moves the resonance by', ...(isSolved ? ['worst reflection grows by'] : [])];
  const row = (effect: Effect): readonly string[] => [
    `${stepText(effect)} more ${effect.dimension.words}`,
    shiftText(effect),
    ...(isSolved ? [growthText(effect.db)] : []),
  ];
  return [table('What 0.1 mm does', head, shown.map(row))];
}

const STACK = [
  'In a stack the lowest dip follows the largest patch most, the highest dip the smallest one.',
  'A loop on the Smith chart that is too large wants a wider gap between its two patches, one that is too small a narrower gap.',
];
