import type { Step } from '../document.ts';
import { boardSteps } from './board-steps.ts';
import { bareCheck, closedCheck } from './check-steps.ts';
import { coaxSteps } from './coax-steps.ts';
import type { StepContext } from './context.ts';
import { harnessSteps, rodSteps } from './harness-steps.ts';
import { paperSteps } from './paper-steps.ts';
import { sheetSteps } from './sheet-steps.ts';
import { drivenSteps, footSteps, trimSteps, upperSteps } from './stack-steps.ts';
import { outdoorSteps, sweepSteps } from './sweep-steps.ts';

/** Everything that is done, in order: from paper and sheet to the sweep. Made from the assembly, so that no step names a part it has not. */
export function makeSteps(context: StepContext): readonly Step[] {
  return [
    ...paperSteps(context),
    ...sheetSteps(context),
    ...boardSteps(context),
    ...trimSteps(context),
    ...rodSteps(context),
    ...coaxSteps(context),
    ...footSteps(context),
    ...harnessSteps(context),
    ...bareCheck(context),
    ...drivenSteps(context),
    ...upperSteps(context),
    ...closedCheck(context),
    ...sweepSteps(context),
    ...outdoorSteps(context),
  ];
}
