import { grow, type Pen, plain, textBox, union } from '@sheetwave/drawings';
import type { Bounds } from '@sheetwave/geometry';
import { type PartSheet, table } from '../document.ts';
import { scaleFor, scaleWords } from './drawing-scale.ts';

/** A round tube that is cut to length, or a spacer that is printed as one. */
interface RoundTube {
  readonly id: string;
  readonly name: string;
  readonly outerMm: number;
  readonly boreMm: number;
  readonly lengthMm: number;
}

const WORDS = { sizeMm: 2.4, anchor: 'middle' } as const;

/** Cut along its axis, lying. */
export function tubeSheet(tube: RoundTube): PartSheet {
  const { id, name, outerMm, boreMm, lengthMm } = tube;
  const scale = scaleFor({ widthMm: lengthMm, heightMm: outerMm }, { widthMm: 110, heightMm: 40 });
  const outer = box(lengthMm * scale, outerMm * scale);
  const words = `${plain(lengthMm)} long, outside ${plain(outerMm)}, bore ${plain(boreMm)}`;
  const at = { x: (lengthMm * scale) / 2, y: outer.minY - 4 };
  return {
    part: id,
    figure: {
      id: `drawing-${id}`,
      caption: `${name}, cut along its axis. ${scaleWords(scale)}; dimensions in mm.`,
      alt: `${name}: a round tube, ${words} millimetres.`,
      box: grow(union(outer, textBox(words, at, WORDS)), 2),
      toScale: true,
      draw: (pen) => {
        drawCut(pen, outer, box(lengthMm * scale, boreMm * scale));
        pen.text(at, words, WORDS);
      },
    },
    tables: [table('Size', ['outside diameter', 'bore', 'length'], [[plain(outerMm), plain(boreMm), plain(lengthMm)]])],
  };
}

const box = (length: number, thick: number): Bounds => ({ minX: 0, maxX: length, minY: -thick / 2, maxY: thick / 2 });

function drawCut(pen: Pen, outer: Bounds, bore: Bounds): void {
  pen.box(outer, { stroke: '#000000', width: 0.25, fill: '#d0d0d0' });
  pen.box(bore, { stroke: '#000000', width: 0.2, fill: '#ffffff' });
  const axis = [
    { x: outer.minX - 2, y: 0 },
    { x: outer.maxX + 2, y: 0 },
  ] as const;
  pen.line(...axis, { stroke: '#000000', width: 0.1, fill: 'none', dash: [3, 0.8, 0.5, 0.8] });
}
