export { type ArcEnds, arcSweep, type Sense } from './arc.ts';
export type * from './assembly.ts';
export * from './contour-measure.ts';
export * from './contours.ts';
export type { EmittedFile, FileKind } from './emitted-file.ts';
export type * from './outline.ts';
export { type ArcPiece, contourPieces, type LinePiece, type Piece } from './pieces.ts';
export { type ContourSink, walkContour } from './walk.ts';
