import type { Design } from '@sheetwave/design';
import type { Sizing, SizingStep } from '@sheetwave/predict';
import { measuredVswr, portReflection, samplesAt, vswr } from '@sheetwave/rf';
import { frequencyText, ratioText } from './number-words.ts';
import { visible } from './terminal.ts';
import { textTable } from './text-table.ts';

interface Sized {
  readonly design: Design;
  /** Where the new revision went, as the user named it. */
  readonly file: string;
  /** Most field solutions that were allowed. */
  readonly budget: number;
}

/** One line on a field solution, while sizing goes on. */
export function stepLine({ solve, score, expected, best }: SizingStep, budget: number): string {
  const gain = score.gainDbi === undefined ? '' : `, gain ${score.gainDbi.toFixed(1)} dBi`;
  const guess = expected === undefined ? '' : `, expected ${ratioText(vswr(Math.min(0.999, expected)))}`;
  return `Solution ${solve} of at most ${budget}: VSWR ${ratioText(score.vswr)} at ${frequencyText(score.worstHz)}${gain}${guess}${best ? '; the best so far' : ''}.\n`;
}

/** VSWR at the edges of the band and where it is worst, against what is wanted. */
function edgesOf({ response, score }: SizingStep, { goal }: Sizing) {
  const at = [goal.lowHz, goal.highHz];
  const samples = samplesAt(response.freqHz, portReflection(response), at);
  const edges = samples.map(({ re, im }, k) => ({
    where: k === 0 ? 'lower edge' : 'upper edge',
    freqHz: at[k] ?? 0,
    vswr: measuredVswr(Math.hypot(re, im)),
  }));
  return [...edges, { where: 'worst in the band', freqHz: score.worstHz, vswr: score.vswr }].map((edge) => ({
    ...edge,
    margin: goal.vswr - edge.vswr,
  }));
}

const sizeAt = (step: SizingStep, path: string): number => step.sizesMm[path] ?? Number.NaN;

/** Everything that the text shows, and every solution on the way. */
export function sizingJson(sizing: Sizing, { design, file, budget }: Sized): Readonly<Record<string, unknown>> {
  const { goal, steps, start, best, unrounded, ended, reached, limits } = sizing;
  const figures = (step: SizingStep) => ({
    vswr: step.score.vswr,
    worstHz: step.score.worstHz,
    gainDbi: step.score.gainDbi ?? null,
    edges: edgesOf(step, sizing),
  });
  return {
    design: { name: design.name, revision: design.revision },
    file,
    budget,
    goal: { lowHz: goal.lowHz, highHz: goal.highHz, vswr: goal.vswr, gainDbi: goal.gainDbi ?? null },
    ended,
    reached,
    limits,
    dimensions: Object.keys(best.sizesMm).map((path) => ({
      path,
      beforeMm: sizeAt(start, path),
      afterMm: sizeAt(best, path),
    })),
    before: figures(start),
    after: figures(best),
    rounding:
      unrounded === undefined
        ? null
        : {
            vswrBefore: unrounded.score.vswr,
            vswrAfter: best.score.vswr,
            gainDbiBefore: unrounded.score.gainDbi ?? null,
            gainDbiAfter: best.score.gainDbi ?? null,
          },
    solutions: steps.map(({ solve, sizesMm, score, expected, best: isBest }) => ({
      solve,
      sizesMm,
      vswr: score.vswr,
      worstHz: score.worstHz,
      gainDbi: score.gainDbi ?? null,
      expectedVswr: expected === undefined ? null : measuredVswr(expected),
      best: isBest,
    })),
  };
}

const ENDED: Readonly<Record<Exclude<Sizing['ended'], 'reached'>, string>> = {
  budget: 'The budget of field solutions is spent; --budget gives more.',
  'no-better': 'No change within the ranges is expected to do better.',
  interrupted: 'Interrupted; the best so far is kept.',
};

function endedSentence({ reached, ended, steps }: Sizing): string {
  if (reached) return `The goal is met after ${count(steps.length)}.`;
  if (ended === 'reached') return `The goal was met, and rounding spoils it; ${count(steps.length)} in all.`;
  return `The goal is not met after ${count(steps.length)}. ${ENDED[ended]}`;
}

/** What rounding cost, of the match and of the gain. */
function roundingSentences({ unrounded, best, reached, goal }: Sizing): readonly string[] {
  if (unrounded === undefined) return [];
  const [before, after] = [unrounded.score, best.score];
  const gain =
    goal.gainDbi === undefined || before.gainDbi === undefined || after.gainDbi === undefined
      ? ''
      : `, the least gain from ${before.gainDbi.toFixed(1)} to ${after.gainDbi.toFixed(1)} dBi`;
  return [
    `Rounding took the worst VSWR from ${ratioText(before.vswr)} to ${ratioText(after.vswr)}${gain}.`,
    ...(!reached && before.cost <= 0
      ? ['A finer --round costs less; without it the sizes that meet the goal are written.']
      : []),
  ];
}

/** The table of before and after, what is reached, and what is in the way. */
export function sizingText(sizing: Sizing, { design, file }: Sized): string {
  const { goal, start, best } = sizing;
  const gain = (step: SizingStep) =>
    step.score.gainDbi === undefined ? 'not known' : `${step.score.gainDbi.toFixed(1)} dBi`;
  const sizes = Object.keys(best.sizesMm).map((path) => [path, mm(sizeAt(start, path)), mm(sizeAt(best, path))]);
  const after = edgesOf(best, sizing);
  const edges = edgesOf(start, sizing).map((edge, i) => {
    const now = after[i] ?? edge;
    return [
      edge.where === 'worst in the band' ? edge.where : `${edge.where}, ${frequencyText(edge.freqHz)}`,
      ratioText(edge.vswr),
      ratioText(now.vswr),
      signed(now.margin),
    ];
  });
  const wanted = `VSWR ${goal.vswr} from ${frequencyText(goal.lowHz)} to ${frequencyText(goal.highHz)}${goal.gainDbi === undefined ? '' : `, ${goal.gainDbi} dBi`}`;
  return `${[
    `${visible(design.name)}: ${wanted}.`,
    '',
    ...textTable([['dimension', 'before', 'after'], ...sizes]),
    '',
    ...textTable([['VSWR', 'before', 'after', 'margin'], ...edges]),
    ...(goal.gainDbi === undefined
      ? []
      : [`Least realised gain in the band: ${gain(start)} before, ${gain(best)} after.`]),
    '',
    endedSentence(sizing),
    ...sizing.limits.sentences,
    ...roundingSentences(sizing),
    `The new revision is ${visible(file)}; the design itself is unchanged.`,
  ].join('\n')}\n`;
}

const mm = (value: number): string => (Number.isFinite(value) ? `${Math.round(value * 1000) / 1000} mm` : '-');
const signed = (value: number): string =>
  Number.isFinite(value) ? `${value >= 0 ? '+' : ''}${value.toFixed(2)}` : '-';
const count = (solves: number): string => `${solves} field ${solves === 1 ? 'solution' : 'solutions'}`;
