export { emitPdf } from './emit.ts';
export { planPdf } from './plan/plan-pdf.ts';
