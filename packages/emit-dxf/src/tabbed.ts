import { type Assembly, needsTabs, type PlatePart, type Point, tabbedContour } from '@sheetwave/geometry';
import { cutContours, cutEntities, cutNotes, withoutOutsideLead } from './cut-contours.ts';
import type { DxfDrawing } from './drawing.ts';
import { openEntity } from './loop.ts';
import { markEntities } from './marks.ts';
import { millimetres, noteLines } from './notes.ts';
import { annotated } from './plate.ts';

/**
 * A small plate held by bridges: its outside as open lines on CUT_TABBED, everything else as in its ordinary file. Undefined when its process asks for
 * no bridges or it is too large for them. The gaps are wider than the bridges by the kerf, which eats half its width at either end.
 * The run-ins of its open lines are the shop's. There is no CUT_OUTER in it: a machine that follows every layer must not cut the bridges.
 */
export function tabbedDrawing(part: PlatePart, design: Assembly['design']): DxfDrawing | undefined {
  const { tabs, kerfMm } = part.process;
  const cut = withoutOutsideLead(cutContours(part));
  if (!needsTabs(cut.outer, tabs)) return undefined;
  const tabbed = tabbedContour(cut.outer, { count: tabs.count, gapMm: tabs.widthMm + kerfMm });
  const others = cutEntities(cut).filter(({ layer }) => layer !== 'CUT_OUTER');
  const entities = [
    ...markEntities(part.marks),
    ...others,
    ...tabbed.paths.map((path) => openEntity(path, 'CUT_TABBED')),
  ];
  const about = `CUT_TABBED: ${tabs.count} bridges ${millimetres(tabs.widthMm)} wide at ${tabbed.tabs.map(place).join(', ')} mm; file them off`;
  return annotated(cut, { entities, notes: noteLines(part, design, [...cutNotes(cut, part.process), about]) });
}

const place = ({ x, y }: Point): string => `(${Number(x.toFixed(2)) + 0}, ${Number(y.toFixed(2)) + 0})`;
