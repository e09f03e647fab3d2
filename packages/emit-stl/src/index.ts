export { type EmittedStl, emitStl } from './emit.ts';
