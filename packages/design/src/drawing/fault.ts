import type { Problem } from '../quantity.ts';

/** Ends the reading of a drawing; caught by `readDrawing`, never seen outside this folder. */
export class DrawingFault extends Error {
  readonly problem: Problem;
  constructor(code: string, allowed: string, remedy: string) {
    super(`${allowed}; ${remedy}`);
    this.problem = { code, allowed, remedy };
  }
}

/** A place in a drawing for a message, in mm. */
export function placeText(point: { readonly x: number; readonly y: number }): string {
  const short = (value: number): number => Math.round(value * 1000) / 1000 + 0;
  return `(${short(point.x)}, ${short(point.y)}) mm`;
}
