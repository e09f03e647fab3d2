export { emitSvg } from './emit.ts';
export { stackSection } from './stack-section.ts';
