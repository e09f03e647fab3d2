import { type PlanBlock, paragraph, type Section, type Step } from '../document.ts';

/** The steps in order. */
export function build(steps: readonly Step[]): Section {
  return {
    id: 'build',
    title: 'Build it, step by step',
    blocks: [
      paragraph(
        'In this order. Every step says what it takes and how to know that it is right; do not go on before it is.',
      ),
      ...steps.map((step): PlanBlock => ({ kind: 'step', step })),
    ],
  };
}
