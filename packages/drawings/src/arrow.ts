import type { Point } from '@sheetwave/geometry';
import type { Pen } from './pen.ts';

/** A filled arrow head with its tip at `tip`, pointing along `direction` (need not be of unit length). */
export function arrowHead(pen: Pen, tip: Point, look: { direction: Point; lengthMm: number; colour: string }): void {
  const length = Math.hypot(look.direction.x, look.direction.y);
  const [ux, uy] = [look.direction.x / length, look.direction.y / length];
  const back = { x: tip.x - ux * look.lengthMm, y: tip.y - uy * look.lengthMm };
  const half = look.lengthMm * 0.3;
  pen.polygon(
    [tip, { x: back.x - uy * half, y: back.y + ux * half }, { x: back.x + uy * half, y: back.y - ux * half }],
    { fill: look.colour, stroke: 'none' },
  );
}
