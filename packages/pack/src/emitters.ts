import type { Finding } from '@sheetwave/design';
import { emitDxf } from '@sheetwave/emit-dxf';
import { emitGerber } from '@sheetwave/emit-gerber';
import { planHtml } from '@sheetwave/emit-html';
import { emitPdf, planPdf, unprintable } from '@sheetwave/emit-pdf';
import { emitStl } from '@sheetwave/emit-stl';
import { emitSvg } from '@sheetwave/emit-svg';
import { kerfNotes, makePlan } from '@sheetwave/plan';
import { findingsOfLetters } from './letter-findings.ts';
import type { SoundDesign, Stages } from './make-pack.ts';

/** The build plan to print and for the screen. */
export const writePlan: Stages['writePlan'] = ({ assembly, estimate, findings, design }, summary, solved) => {
  const { prediction, sensitivities } = solved;
  const plan = makePlan({
    ...summary,
    assembly,
    estimate,
    findings,
    // One element by itself is not what the builder will sweep.
    prediction: prediction?.feed === 'as-built' ? prediction : undefined,
    sensitivities: sensitivities && { quality: sensitivities.request.quality, solved: sensitivities.sensitivities },
  });
  return [
    { path: 'build-plan.pdf', kind: 'build-plan', part: undefined, bytes: planPdf(plan, design.paper) },
    { path: 'report.html', kind: 'report', part: undefined, bytes: planHtml(plan) },
  ];
};

/** The product's own emitters. They bring large libraries, so this file is loaded only when files are made. */
export const emitters: Stages['emit'] = [
  (assembly) => ({ files: emitDxf(assembly), notes: kerfNotes(assembly) }),
  (assembly) => ({ files: emitGerber(assembly), notes: [] }),
  (assembly, findings) => ({ files: emitSvg(assembly, { findings }), notes: [] }),
  (assembly) => ({ files: emitPdf(assembly), notes: [] }),
  emitStl,
];

/** Letters that the printed files cannot show. */
export const letterFindings = (checked: SoundDesign): readonly Finding[] => findingsOfLetters(checked, unprintable);
