export { emitDxf } from './emit.ts';
