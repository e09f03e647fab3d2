export type * from './assembly.ts';
export type { EmittedFile, FileKind } from './emitted-file.ts';
export type * from './outline.ts';
export { type ContourSink, walkContour } from './walk.ts';
