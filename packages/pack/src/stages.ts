import { readDesign, renderFinding } from '@sheetwave/design';
import { assemble, measure, nest, partMassKg, validate } from '@sheetwave/geometry';
import { estimate } from '@sheetwave/predict';
import type { Stages } from './make-pack.ts';

/** The product's own way from text to an assembly and what is known of it; `emitters.ts` makes files of that. */
export const realStages: Omit<Stages, 'emit' | 'writePlan'> = {
  readDesign,
  assemble,
  validate,
  nest,
  measure,
  estimate,
  massKg: partMassKg,
  findingText: (finding) => renderFinding(finding),
};
