export { bendList, type RodBend } from './bend-list.ts';
export { cautions } from './cautions.ts';
export { type HoleCount, holeCounts } from './hole-counts.ts';
export { kerfNotes } from './kerf-notes.ts';
export { numberText } from './number-text.ts';
export { type PartLine, partLines } from './parts-list.ts';
export { boughtSheet, leftText, type SheetLine, sheetLines, sheetSize } from './sheet-lines.ts';
