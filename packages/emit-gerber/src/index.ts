export { emitGerber } from './emit.ts';
