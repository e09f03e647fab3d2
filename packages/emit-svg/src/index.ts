export { emitSvg } from './emit.ts';
export { type Inlined, inlineSvg } from './inline-svg.ts';
