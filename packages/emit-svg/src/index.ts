export { emitSvg } from './emit.ts';
export { figureSvg } from './figure-svg.ts';
export { type Inlined, inlineSvg } from './inline-svg.ts';
