/** What is used of a font as the PDF library holds it. */
export interface LaidFont {
  readonly font: {
    glyphsForString(text: string): readonly { readonly advanceWidth: number }[];
    hasGlyphForCodePoint(code: number): boolean;
  };
  /** From units of the font to thousandths of its size. */
  readonly scale: number;
  layoutRun(text: string, features?: unknown): unknown;
}

/** Scripts whose letters stand one after the other as they are: Latin, Greek and Cyrillic, with signs and dashes. */
const PLAIN = /^[\u0020-\u02ff\u0370-\u052f\u1e00-\u200a\u2010-\u2027\u2030-\u205e\u2070-\u23ff\u2500-\u27bf]*$/;

const replaced = new WeakSet<LaidFont>();

/**
 * Lets a font set plain text letter by letter, without the tables of joined and moved letters. Those are read anew for each document
 * and change nothing where neither joining nor kerning is asked for, yet take most of the time of a page of words.
 * Other scripts are set by the library as before.
 */
export function setLettersOneByOne(laid: LaidFont): void {
  if (replaced.has(laid)) return;
  replaced.add(laid);
  const shaped = laid.layoutRun.bind(laid);
  laid.layoutRun = (text, features) => (PLAIN.test(text) ? plainRun(laid, text) : shaped(text, features));
}

function plainRun({ font, scale }: LaidFont, text: string) {
  const glyphs = font.glyphsForString(text);
  const widths = glyphs.map((glyph) => glyph.advanceWidth * scale);
  return {
    glyphs,
    positions: widths.map((width) => ({ xAdvance: width, yAdvance: 0, xOffset: 0, yOffset: 0, advanceWidth: width })),
    advanceWidth: widths.reduce((sum, width) => sum + width, 0),
  };
}
