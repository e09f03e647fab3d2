import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import { fontFile } from './font-files.ts';
import { type LaidFont, setLettersOneByOne } from './plain-layout.ts';

interface Run {
  readonly glyphs: readonly { readonly id: number }[];
  readonly positions: readonly Record<string, number>[];
}

/** A font as the library opens it. */
function openFont(): LaidFont {
  const doc = new PDFDocument({ font: '' });
  doc.registerFont('regular', fontFile('regular') as unknown as ArrayBuffer).font('regular');
  return (doc as unknown as { readonly _font: LaidFont })._font;
}

const UNJOINED = { liga: false, clig: false, kern: false };

describe('letters one by one', () => {
  it.each(['Heron Lock 5.8', 'Ø 3.4 mm × 2, ±0.1 mm', 'AVATAR fi ffl', 'µΩ λ/4 – “quoted”', 'мачта', ''])(
    'stand where the library puts them without joining and kerning: %j',
    (text) => {
      const plain = openFont();
      setLettersOneByOne(plain);
      const [one, other] = [plain.layoutRun(text, UNJOINED) as Run, openFont().layoutRun(text, UNJOINED) as Run];
      expect(one.glyphs.map(({ id }) => id)).toEqual(other.glyphs.map(({ id }) => id));
      for (const [index, position] of one.positions.entries()) {
        for (const key of ['xAdvance', 'xOffset', 'advanceWidth'])
          expect(position[key], key).toBeCloseTo(other.positions[index]?.[key] ?? Number.NaN, 9);
      }
    },
  );

  it('leave scripts that join their letters to the library', () => {
    const text = 'سارية';
    const plain = openFont();
    setLettersOneByOne(plain);
    const isolated = [...text].flatMap((letter) => (openFont().layoutRun(letter, UNJOINED) as Run).glyphs);
    const ids = (plain.layoutRun(text, UNJOINED) as Run).glyphs.map(({ id }) => id);
    expect(ids).toEqual((openFont().layoutRun(text, UNJOINED) as Run).glyphs.map(({ id }) => id));
    expect(ids).not.toEqual(isolated.map(({ id }) => id));
  });
});
