import type { Section } from '../document.ts';
import type { PlanInput } from '../input.ts';

export function cautionSection({ cautions }: PlanInput): Section {
  return {
    id: 'cautions',
    title: 'Before you start',
    blocks: [
      { kind: 'notice', title: 'What can hurt', items: cautions },
      {
        kind: 'paragraph',
        text: 'Where this plan and your local rules or the data sheet of a material differ, the rules and the data sheet hold.',
      },
    ],
  };
}
