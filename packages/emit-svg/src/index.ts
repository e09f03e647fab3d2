export { emitSvg } from './emit.ts';
