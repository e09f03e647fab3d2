import type { Block } from './block.ts';
import { textWidth, wrapText } from './text-size.ts';

const SIZE = 2.4;
const LINE = 3.6;

/** Short lines of advice, wrapped to a width; each begins with a dash. */
export function wordsBlock(id: string, sentences: readonly string[], widthMm: number): Block {
  const lines = sentences.flatMap((sentence) =>
    wrapText(sentence, widthMm - textWidth('– ', { sizeMm: SIZE }), { sizeMm: SIZE }).map((line, index) => ({
      line,
      first: index === 0,
    })),
  );
  return {
    widthMm,
    heightMm: Math.max(1, lines.length) * LINE,
    draw: (pen, corner) => {
      const group = pen.group(id);
      lines.forEach(({ line, first }, index) => {
        const y = corner.y - index * LINE - SIZE;
        if (first) group.text({ x: corner.x, y }, '–', { sizeMm: SIZE });
        group.text({ x: corner.x + SIZE, y }, line, { sizeMm: SIZE });
      });
    },
  };
}
