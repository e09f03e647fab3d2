export { emitPdf } from './emit.ts';
export { planPdf } from './plan/plan-pdf.ts';
export { unprintable } from './unprintable.ts';
