import type { PlanDocument, Step } from './document.ts';

/** What a step takes in hand, in words: one line each for parts, tools and files, those that are empty left out. */
export function stepNeeds(
  plan: PlanDocument,
  step: Step,
): readonly { readonly label: string; readonly words: string }[] {
  const parts = step.parts.map((id) => nameOf(plan.parts, id));
  const tools = step.tools.map((id) => nameOf(plan.tools, id));
  return [
    { label: 'Parts', words: parts.join('; ') },
    { label: 'Tools', words: tools.join('; ') },
    { label: 'Files', words: step.files.join('; ') },
  ].filter(({ words }) => words !== '');
}

function nameOf(items: readonly { readonly id: string; readonly name: string }[], id: string): string {
  const item = items.find((one) => one.id === id);
  if (item === undefined) throw new Error(`a step names ${id}, which is in no list of the plan`);
  return item.name;
}

/** `Step 4: Prepare the cable`. */
export const stepTitle = (plan: PlanDocument, step: Step): string =>
  `Step ${plan.steps.indexOf(step) + 1}: ${step.title}`;
