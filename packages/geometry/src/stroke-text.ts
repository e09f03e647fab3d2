import type { Point } from './outline.ts';
import { GLYPH, STROKES } from './stroke-font.ts';

/** A polyline of a drawn letter or arrow, in mm. */
export type Stroke = readonly Point[];

/** What the font can write: capitals, digits, `.`, `-` and space; any other character becomes `-`. */
export function legendText(text: string): string {
  return [...text.trim().toUpperCase()].map((character) => (character in STROKES ? character : '-')).join('');
}

/** Width of a line of text of the given capital height, in mm, without the gap after the last letter. */
export function textWidthMm(text: string, heightMm: number): number {
  const units = Math.max(0, text.length * GLYPH.advanceUnits - (GLYPH.advanceUnits - GLYPH.widthUnits));
  return (units * heightMm) / GLYPH.heightUnits;
}

/** The strokes of a line of text with its lower left corner at (0, 0), reading to the right. */
export function textStrokes(text: string, heightMm: number): readonly Stroke[] {
  const scale = heightMm / GLYPH.heightUnits;
  return [...legendText(text)].flatMap((character, index) =>
    (STROKES[character] ?? []).map((stroke) => gridStroke(stroke, index * GLYPH.advanceUnits, scale)),
  );
}

function gridStroke(stroke: string, leftUnits: number, scale: number): Stroke {
  return stroke.split(' ').map((pair) => ({
    x: (leftUnits + Number(pair.charAt(0))) * scale,
    y: Number(pair.charAt(1)) * scale,
  }));
}
