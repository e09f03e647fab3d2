import type { EmittedFile } from '@sheetwave/geometry';
import { extentOf, movedFlat } from './flat-shapes.ts';
import { type Level, layered } from './layered.ts';
import { type PrintableOptions, printable } from './printable.ts';

export interface LevelsOptions extends Omit<PrintableOptions, 'sizeMm' | 'exactMm'> {
  readonly levels: readonly Level[];
  readonly bevelMm: number;
}

/** The files of a solid built of levels, centred over the bed. */
export function levelsFiles({ levels, bevelMm, ...options }: LevelsOptions): readonly EmittedFile[] {
  const { low, high } = extentOf(levels.flatMap(({ flat }) => flat));
  const by = { x: -(low.x + high.x) / 2, y: -(low.y + high.y) / 2 };
  const centred = levels.map(({ flat, topMm }) => ({ flat: movedFlat(flat, by), topMm }));
  return printable(layered(centred, bevelMm), {
    ...options,
    sizeMm: [high.x - low.x, high.y - low.y, levels.at(-1)?.topMm ?? 0],
    exactMm: [[], [], []],
  });
}
