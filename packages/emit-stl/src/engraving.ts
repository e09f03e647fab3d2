import { type Flat, legendText, penFlat, textStrokes, textWidthMm } from '@sheetwave/geometry';
import { extentOf, joined, movedFlat } from './flat-shapes.ts';
import type { Print } from './print.ts';

/** How letters are cut into a print. mm. */
export interface Lettering {
  /** Capital heights that are tried in turn; the last is the smallest that reads. */
  readonly heightsMm: readonly number[];
  readonly penMm: number;
  readonly depthMm: number;
}

/** A line of a 0.4 mm nozzle is about 0.45 mm wide: thinner gaps close, lower letters blur (common practice, no source). */
const FILAMENT: Lettering = { heightsMm: [5, 4.5], penMm: 0.6, depthMm: 0.5 };
const RESIN: Lettering = { heightsMm: [4, 3], penMm: 0.4, depthMm: 0.4 };
/** First layers spread into letters on the bed. */
const WIDER_ON_BED = 1.25;
/** From one line of text to the next, and what stays free around it, in capital heights. */
const LINE_PITCH = 1.5;
export const MARGIN_MM = 1.5;

export function lettering(print: Print, where: 'top' | 'bed' = 'top'): Lettering {
  const usual = print.process === 'resin' ? RESIN : FILAMENT;
  return where === 'top' ? usual : { ...usual, penMm: usual.penMm * WIDER_ON_BED };
}

/** Engraved lines of text, the lower left corner of what the pen covers at (0, 0). */
export interface Inscription {
  readonly flat: Flat;
  readonly widthMm: number;
  readonly heightMm: number;
}

export function inscription(lines: readonly string[], { penMm }: Lettering, heightMm: number): Inscription {
  const placed = lines.flatMap((line, i) =>
    textStrokes(line, heightMm).map((stroke) =>
      stroke.map(({ x, y }) => ({ x, y: y + (lines.length - 1 - i) * LINE_PITCH * heightMm })),
    ),
  );
  const covered = withoutSpecks(joined([penFlat(placed, penMm)]));
  const { low, high } = extentOf(covered);
  return {
    flat: movedFlat(covered, { x: -low.x, y: -low.y }),
    widthMm: high.x - low.x,
    heightMm: high.y - low.y,
  };
}

/** Where strokes cross at small angles, rounding leaves sides of a micrometre that no printer shows. */
const SPECK_MM = 0.005;
function withoutSpecks(flat: Flat): Flat {
  return flat.map((loop) =>
    loop.filter((p, i) => {
      const before = loop.at(i - 1) ?? p;
      return Math.hypot(p.x - before.x, p.y - before.y) >= SPECK_MM;
    }),
  );
}

/** Words put on as few lines as fit the width; undefined when one word alone is wider. */
function wrapped(words: readonly string[], heightMm: number, widthMm: number): readonly string[] | undefined {
  const lines: string[] = [];
  for (const word of words) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && textWidthMm(longer, heightMm) <= widthMm) lines[lines.length - 1] = longer;
    else lines.push(word);
    if (textWidthMm(word, heightMm) > widthMm) return undefined;
  }
  return lines;
}

/** The first of several wordings that fits the room, as large as it may be; undefined when none does. */
export function fittingInscription(
  wordings: readonly string[],
  letters: Lettering,
  room: { readonly widthMm: number; readonly heightMm: number },
): Inscription | undefined {
  for (const wording of wordings)
    for (const heightMm of letters.heightsMm) {
      const lines = wrapped(wordsOf(wording), heightMm, room.widthMm - letters.penMm);
      if (lines === undefined) continue;
      const made = inscription(lines, letters, heightMm);
      if (made.widthMm <= room.widthMm && made.heightMm <= room.heightMm) return made;
    }
  return undefined;
}

/** Each wording on lines of its own, of at most this width, or of the longest word where that is wider. */
export function inscriptionFor(wordings: readonly string[], letters: Lettering, widthMm: number): Inscription {
  const heightMm = letters.heightsMm.at(-1) ?? 0;
  const words = wordings.map(wordsOf);
  const widest = Math.max(widthMm - letters.penMm, ...words.flat().map((word) => textWidthMm(word, heightMm)));
  const lines = words.flatMap((some) => wrapped(some, heightMm, widest) ?? some);
  return inscription(lines, letters, heightMm);
}

const wordsOf = (wording: string): readonly string[] =>
  legendText(wording.replaceAll('-', ' '))
    .split(' ')
    .filter((word) => word !== '');
