export { emitPdf } from './emit.ts';
