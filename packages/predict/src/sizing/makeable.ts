import { type Design, readDesign, renderFinding } from '@sheetwave/design';
import { assemble, validate } from '@sheetwave/geometry';
import { type Problem, pointOf, type State, sizesIn } from './problem.ts';
import type { SizingStep } from './size-design.ts';
import { allowedSize, withSizes } from './variables.ts';

/** A design that can be made, or why it cannot. */
type Makeable = { readonly design: Design } | { readonly why: string };

/** Reads a text, puts its parts together and holds them against what right means. */
function makeable(text: string, files: Readonly<Record<string, string>> | undefined): Makeable {
  const { design, findings } = readDesign(text, files === undefined ? {} : { files });
  const { assembly, findings: more } = design ? assemble(design) : { assembly: undefined, findings: [] };
  const all = [...findings, ...more, ...(assembly ? validate(assembly) : [])];
  const error = all.find(({ severity }) => severity === 'error');
  if (design !== undefined && assembly !== undefined && error === undefined) return { design };
  if (error === undefined) return { why: 'its parts do not meet' };
  const { line: _, column: __, ...placeless } = error;
  return { why: renderFinding(placeless) };
}

/** Text and design of these sizes, or why they cannot be made. */
export function designWith(
  { options, variables }: Problem,
  sizesMm: readonly number[],
): ({ readonly text: string } & { readonly design: Design }) | { readonly why: string } {
  const edit = withSizes(options.designText, variables, sizesMm);
  if (!edit.ok) return { why: renderFinding(edit.finding) };
  const made = makeable(edit.text, options.files);
  return 'design' in made ? { text: edit.text, design: made.design } : made;
}

/** Halvings between a size that can be made and one that cannot: to a sixtieth of the way. */
const HALVINGS = 6;

/**
 * What can be learned of a candidate that cannot be made: which of its sizes alone is in the way, and from where on. When none is by
 * itself, the candidate is remembered and the reach is cut.
 */
export function learnEnds(
  problem: Problem,
  state: State,
  at: { readonly best: SizingStep; readonly sizesMm: readonly number[] },
): void {
  const { variables } = problem;
  const sizes = sizesIn(problem, at.best);
  let learned = false;
  variables.forEach((variable, index) => {
    const [from, to] = [sizes[index] ?? variable.startMm, at.sizesMm[index] ?? variable.startMm];
    const tried = (mm: number) =>
      designWith(
        problem,
        sizes.map((own, i) => (i === index ? allowedSize(variable, mm) : own)),
      );
    const refusal = tried(to);
    if (from === to || !('why' in refusal)) return;
    let [good, bad] = [from, to];
    for (let round = 0; round < HALVINGS; round++) {
      const middle = (good + bad) / 2;
      if ('why' in tried(middle)) bad = middle;
      else good = middle;
    }
    const known = state.ends.get(index) ?? { lowMm: variable.lowMm, highMm: variable.highMm, why: '' };
    const end = to > from ? { ...known, highMm: good } : { ...known, lowMm: good };
    state.ends.set(index, { ...end, why: refusal.why });
    learned = true;
  });
  if (learned) return;
  state.refused.push(pointOf(variables, at.sizesMm));
  state.reach *= 0.7;
}
