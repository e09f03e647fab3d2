import { readDesign, renderFinding } from '@sheetwave/design';
import { emitDxf } from '@sheetwave/emit-dxf';
import { emitGerber } from '@sheetwave/emit-gerber';
import { emitPdf } from '@sheetwave/emit-pdf';
import { emitStl } from '@sheetwave/emit-stl';
import { emitSvg } from '@sheetwave/emit-svg';
import { assemble, measure, nest, partMassKg, validate } from '@sheetwave/geometry';
import { estimate } from '@sheetwave/predict';
import { kerfNotes } from './kerf-notes.ts';
import type { Stages } from './make-pack.ts';

/** The product's own way from text to files. */
export const realStages: Stages = {
  readDesign,
  assemble,
  validate,
  nest,
  emit: [
    (assembly) => ({ files: emitDxf(assembly), notes: kerfNotes(assembly) }),
    (assembly) => ({ files: emitGerber(assembly), notes: [] }),
    (assembly, findings) => ({ files: emitSvg(assembly, { findings }), notes: [] }),
    (assembly) => ({ files: emitPdf(assembly), notes: [] }),
    emitStl,
  ],
  measure,
  estimate,
  massKg: partMassKg,
  findingText: (finding) => renderFinding(finding),
};
