export { emitSvg } from './emit.ts';
export { figureSvg } from './figure-svg.ts';
