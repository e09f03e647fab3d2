import { readDesign, renderFinding } from '@sheetwave/design';
import { emitDxf } from '@sheetwave/emit-dxf';
import { emitGerber } from '@sheetwave/emit-gerber';
import { emitPdf } from '@sheetwave/emit-pdf';
import { emitStl } from '@sheetwave/emit-stl';
import { emitSvg } from '@sheetwave/emit-svg';
import { assemble, measure, partMassKg, validate } from '@sheetwave/geometry';
import { estimate } from '@sheetwave/predict';
import type { Stages } from './make-pack.ts';

/** The product's own way from text to files. */
export const realStages: Stages = {
  readDesign,
  assemble,
  validate,
  emit: [
    (assembly) => ({ files: emitDxf(assembly), notes: [] }),
    (assembly) => ({ files: emitGerber(assembly), notes: [] }),
    (assembly) => ({ files: emitSvg(assembly), notes: [] }),
    (assembly) => ({ files: emitPdf(assembly), notes: [] }),
    emitStl,
  ],
  measure,
  estimate,
  massKg: partMassKg,
  findingText: (finding) => renderFinding(finding),
};
