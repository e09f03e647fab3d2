import type { Mark } from '@sheetwave/geometry';
import type { DxfEntity } from './drawing.ts';
import { oneLine } from './notes.ts';

/** Lines and circles are scribed, and the middle of a bend has a layer of its own; words would be dropped or mangled by a cutter and go with the notes. */
function markEntity(mark: Mark): DxfEntity {
  switch (mark.kind) {
    case 'line':
      return { kind: 'line', layer: mark.purpose === 'bend' ? 'BEND' : 'ENGRAVE', from: mark.from, to: mark.to };
    case 'circle':
      return { kind: 'circle', layer: 'ENGRAVE', centre: mark.centre, radiusMm: mark.diameterMm / 2 };
    case 'text': {
      const { at, heightMm, text } = mark;
      return { kind: 'text', layer: 'NOTE', at, align: 'middle', heightMm, text: oneLine(text) };
    }
  }
}

/** Each mark once: where two elements share a line, one stroke is enough. */
export function markEntities(marks: readonly Mark[]): readonly DxfEntity[] {
  const known = new Map<string, DxfEntity>();
  for (const entity of marks.map(markEntity)) {
    const key = JSON.stringify(entity, (_, value: unknown) => (typeof value === 'number' ? value.toFixed(6) : value));
    if (!known.has(key)) known.set(key, entity);
  }
  return [...known.values()];
}
