import { plain } from '@sheetwave/drawings';
import type { Dimension } from './dimension.ts';
import { scalePoint } from './scale.ts';
import type { View } from './top-view.ts';

/** Overall width and height of the reflector, and the pitches of the lattice. */
export function dimensionsOf(view: View): readonly Dimension[] {
  const { reflector, scale, assembly } = view;
  const { lattice } = assembly.design;
  const { widthMm, heightMm } = assembly.reflector;
  const size = (from: number, to: number) => ({ from, to });
  const out: Dimension[] = [
    {
      axis: 'x',
      ...size(reflector.minX, reflector.maxX),
      edge: reflector.minY,
      at: reflector.minY - 9,
      text: plain(widthMm),
    },
    {
      axis: 'y',
      ...size(reflector.minY, reflector.maxY),
      edge: reflector.minX,
      at: reflector.minX - 17,
      text: plain(heightMm),
    },
  ];
  const first = assembly.elements[0];
  if (first === undefined) return out;
  const at = scalePoint(first.centre, scale);
  const top = -at.y;
  if (lattice.columns > 1)
    out.push({
      axis: 'x',
      ...size(at.x, at.x + lattice.columnPitchMm * scale),
      edge: top,
      at: reflector.maxY + 5,
      text: plain(lattice.columnPitchMm),
    });
  if (lattice.rows > 1)
    out.push({
      axis: 'y',
      ...size(at.y, at.y + lattice.rowPitchMm * scale),
      edge: at.x,
      at: reflector.minX - 7,
      text: plain(lattice.rowPitchMm),
    });
  return out;
}
