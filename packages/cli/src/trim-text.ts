import type { AsBuiltDimension, TrimAdvice, TrimOption, TrimStep } from '@sheetwave/bench';
import type { Design } from '@sheetwave/design';
import { reflectionChart, reflectionCurve, vswrChart } from '@sheetwave/plots';
import type { Response } from '@sheetwave/rf';
import { measuredVswr } from '@sheetwave/rf';
import { ratioText } from './number-words.ts';
import { visible } from './terminal.ts';
import { textTable } from './text-table.ts';

/** What there is to tell. */
export interface Trimmed {
  readonly design: Design;
  readonly advice: TrimAdvice;
  /** At the antenna. */
  readonly measured: Response;
  /** Sweeps of the log that were used. */
  readonly earlier: number;
}

/** Everything that the text shows, in mm, and the expected curve. */
export function trimJson({ design, advice, earlier }: Trimmed): Readonly<Record<string, unknown>> {
  const { asBuilt, step, options, expected, ...rest } = advice;
  return {
    design: { name: design.name, revision: design.revision },
    earlierSweeps: earlier,
    ...rest,
    asBuilt: {
      dimensions: asBuilt.dimensions.map((one) => ({
        path: one.path,
        words: one.words,
        error: one.error * unitsOf(one),
        deviation: one.deviation * unitsOf(one),
        unit: isLength(one) ? 'mm' : '',
      })),
      frequencyShare: asBuilt.frequencyShare,
      slopeTimes: asBuilt.slopeTimes,
      residual: asBuilt.residual,
    },
    step:
      step === undefined
        ? null
        : {
            ...optionJson(step.option),
            changeNowMm: 1000 * step.change,
            half: step.half,
            expected: expectedVswr(advice),
          },
    options: options.map(optionJson),
    expected,
  };
}

const optionJson = ({ path, words, way, change, deviation, size, vswr }: TrimOption) => ({
  path,
  words,
  way,
  changeMm: 1000 * change,
  deviationMm: 1000 * deviation,
  sizeMm: 1000 * size,
  vswr,
});

/** Lengths come in m; of a board it is the permittivity that may be off. */
const isLength = ({ path }: AsBuiltDimension): boolean => !path.endsWith('.board');
const unitsOf = (dimension: AsBuiltDimension): number => (isLength(dimension) ? 1000 : 1);

/** The measured curve and the one to expect, with what is not known of it. */
export function trimFigures({ design, advice, measured }: Trimmed) {
  const { expected, step } = advice;
  const halfWidths = expected.most.map((most, k) => (most - (expected.least[k] ?? most)) / 2);
  const after: Response = {
    origin: 'prediction',
    method: 'Model of the antenna as built.',
    error: {
      coefficient: Math.max(...halfWidths),
      origin: 'Two standard deviations of the fit, where they are largest.',
    },
    freqHz: expected.freqHz,
    referenceOhm: measured.referenceOhm,
    s: expected.reflection.map((value) => [[value]]),
  };
  const name = step === undefined ? 'fitted' : 'expected next';
  const curves = [reflectionCurve(name, after), reflectionCurve('measured', measured)];
  const { freqHz } = measured;
  const span = { lowHz: freqHz[0] ?? design.band.lowHz, highHz: freqHz.at(-1) ?? design.band.highHz };
  const plot = { curves, target: { ...design.band, vswr: design.targets.vswr }, span };
  const title = `${design.name}, revision ${design.revision}: trimming`;
  return { reflection: reflectionChart(plot, { title }), vswr: vswrChart(plot, { title }) };
}

/** What the sweep says, what to do, and what to expect. */
export function trimText(trimmed: Trimmed, plots: readonly string[]): string {
  const { design, advice, earlier } = trimmed;
  const { asBuilt, measuredVswr: now, wantedVswr, warnings } = advice;
  const worst = Math.max(...asBuilt.residual);
  return `${[
    `${visible(design.name)}, revision ${visible(design.revision)}: VSWR ${ratioText(now)} measured over the band, ${ratioText(wantedVswr)} wanted.`,
    `With the sizes below the model follows ${earlier === 0 ? 'the sweep' : `${earlier + 1} sweeps`} to ${worst.toFixed(3)} of the reflection; it resonates ${(100 * Math.abs(asBuilt.frequencyShare)).toFixed(2)} % ${asBuilt.frequencyShare > 0 ? 'lower' : 'higher'} than the antenna by itself.`,
    '',
    ...textTable([['dimension', 'built less drawn'], ...builtRows(trimmed)]),
    '',
    ...nextLines(trimmed),
    ...otherLines(advice),
    ...warnings.map((warning) => `Mind: ${warning}`),
    ...(plots.length === 0 ? [] : [`Drew ${plots.map((name) => visible(name)).join(', ')}.`]),
  ].join('\n')}\n`;
}

function builtRows({ advice }: Trimmed): readonly (readonly string[])[] {
  return advice.asBuilt.dimensions.map((one) => {
    const units = unitsOf(one);
    const unit = isLength(one) ? ' mm' : '';
    return [one.words, `${signed(one.error * units)} +-${(2 * one.deviation * units).toFixed(2)}${unit}`];
  });
}

const signed = (value: number): string => `${value >= 0 ? '+' : ''}${value.toFixed(2)}`;
const mm = (metres: number): string => `${Math.abs(1000 * metres).toFixed(2)} mm`;

/** Largest VSWR over the band after the step, and at the end of its uncertainty. */
const expectedVswr = ({ expected }: TrimAdvice) => ({
  vswr: measuredVswr(Math.max(...expected.reflection.map(({ re, im }) => Math.hypot(re, im)))),
  atWorst: measuredVswr(Math.max(...expected.most)),
});

function nextLines({ design, advice }: Trimmed): readonly string[] {
  const { step, verdict, wantedVswr } = advice;
  if (verdict === 'done') return ['It meets its target: leave it as it is, and put the sweep into the log.'];
  if (step === undefined) {
    return [
      'No single change is expected to help: see whether the target can be met at all (sheetwave size), or change more than one thing.',
    ];
  }
  const then = expectedVswr(advice);
  const short =
    step.option.vswr > wantedVswr
      ? [`Even the whole change is expected to leave VSWR ${ratioText(step.option.vswr)}.`]
      : [];
  return [
    `Next: ${instruction(step, design)}`,
    `Then expect VSWR ${ratioText(then.vswr)} over the band, ${ratioText(then.atWorst)} at worst.`,
    ...short,
    ...(step.half
      ? ['That is half of what is reckoned: put the new size into the design, sweep again, and ask again.']
      : []),
  ];
}

/** What to do, in the words of the bench. */
function instruction({ option, change, half }: TrimStep, design: Design): string {
  const { words, way, size, path } = option;
  const whole = half
    ? ` (of ${mm(option.change)} +-${mm(2 * option.deviation)} in all)`
    : ` (+-${mm(2 * option.deviation)})`;
  switch (way) {
    case 'take-off':
      return `take ${mm(change)} off the ${words}${whole}${edgeWords(path, design)}; ${mm(size)} is the size to end at. Take the cable off first, deburr after.`;
    case 'widen':
      return `open the ${words} by ${mm(change)}${whole}; ${mm(size)} is the size to end at.`;
    case 'other-spacer':
      return `use a spacer that is ${mm(change)} ${change > 0 ? 'higher' : 'lower'}${whole}: ${mm(size)} instead of the ${words}; shims and washers add up, too.`;
    case 'other-place':
      return `put the ${words} at ${mm(size)}, ${mm(change)} ${change > 0 ? 'farther in' : 'nearer the edge'}${whole}: a new hole, or a new patch when the holes would meet.`;
    case 're-cut':
      return `nothing can be put on, and the resonance has to go down: cut the part anew with ${mm(size)} as the ${words}, ${mm(change)} ${change > 0 ? 'more' : 'less'} than now${whole}.`;
  }
}

/** Of a driven patch the pin keeps its distance from the fed edge, so the other edge is filed. */
function edgeWords(path: string, { feed }: Design): string {
  if (path === 'layer[0].length' && feed.kind === 'probe') return ', from the edge across from the feed';
  return /\.(length|width)$/.test(path) ? ', from both edges alike' : '';
}

function otherLines({ options, step }: TrimAdvice): readonly string[] {
  const others = options.filter((option) => option !== step?.option).slice(0, 5);
  if (others.length === 0) return [];
  const WAYS: Readonly<Record<TrimOption['way'], string>> = {
    'take-off': 'take off',
    widen: 'widen',
    'other-spacer': 'other spacer',
    'other-place': 'other place',
    're-cut': 'cut anew',
  };
  return [
    '',
    ...textTable([
      ['other ways', '', 'change', 'to', 'VSWR then'],
      ...others.map(({ words, way, change, size, vswr }) => [
        words,
        WAYS[way],
        `${signed(1000 * change)} mm`,
        mm(size),
        ratioText(vswr),
      ]),
    ]),
  ];
}
