import type { PlanDocument } from './document.ts';
import { partSheet } from './drawn/part-sheet.ts';
import type { PlanInput } from './input.ts';
import { build } from './sections/build.ts';
import { buying } from './sections/buying.ts';
import { cautionSection } from './sections/cautions.ts';
import { drawingSection } from './sections/drawings.ts';
import { fullSizeDrawings, fullSizeSection } from './sections/full-size.ts';
import { numbers } from './sections/numbers.ts';
import { overview } from './sections/overview.ts';
import { sweepSection } from './sections/sweep.ts';
import { tolerances } from './sections/tolerances.ts';
import { views } from './sections/views.ts';
import { makeSteps } from './steps/make-steps.ts';
import { toolsOf } from './steps/tools.ts';

/** The build plan of an antenna: one document by which a stranger can make it. Pure; the same input gives the same plan. */
export function makePlan(input: PlanInput): PlanDocument {
  const { assembly, files, toolVersion } = input;
  const { name, revision, date } = assembly.design;
  const steps = makeSteps({ assembly, files });
  const tools = toolsOf(steps.flatMap((step) => step.tools));
  const drawings = assembly.parts.flatMap((part) => partSheet(part) ?? []);
  const fullSize = fullSizeDrawings(assembly);
  const parts = [...(revision === '' ? [] : [`revision ${revision}`]), ...(date === undefined ? [] : [date])];
  return {
    title: `${name}: build plan`,
    subtitle: [...parts, `made by sheetwave ${toolVersion}`].join(', '),
    about: `How to build the antenna ${name}: parts, drawings, steps, and the sweep.`,
    language: 'en-GB',
    date,
    steps,
    tools,
    parts: input.parts.map(({ id, name, quantity }) => ({ id, name, quantity })),
    drawings,
    fullSize,
    sections: [
      overview(input),
      cautionSection(input),
      buying(input, tools),
      views(input),
      drawingSection(input, drawings),
      tolerances(input),
      build(steps),
      sweepSection(input),
      numbers(input),
      ...fullSizeSection(fullSize),
    ],
  };
}
