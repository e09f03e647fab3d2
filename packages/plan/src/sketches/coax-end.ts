import { grow, plain, union } from '@sheetwave/drawings';
import type { PlanFigure } from '../document.ts';
import type { CoaxEnd } from '../steps/coax-end.ts';
import { boxOf, drawPointers, drawSpan, METAL, OTHER_METAL, PLASTIC, type Pointer, pointersBox } from './sketch.ts';

/** So large that the shorter of the two lengths has room for its number. */
const LEAST_MM = 7;
const JACKET_PAGE_MM = 34;

/** The end of the cable as it is stripped, with the lengths of what stands out of what. */
export function coaxEndSketch(end: CoaxEnd): PlanFigure {
  const { coax, dielectricMm, pinMm } = end;
  const scale = [3, 5, 10].find((one) => Math.min(dielectricMm, pinMm) * one >= LEAST_MM) ?? 10;
  const s = (value: number): number => value * scale;
  const [jacket, sleeve, pin] = [coax.jacketMm / 2, coax.dielectricMm / 2, coax.pinMm / 2];
  const [a, b] = [s(dielectricMm), s(dielectricMm + pinMm)];
  const pointers: readonly Pointer[] = [
    {
      words: 'jacket',
      at: { x: -JACKET_PAGE_MM + 14, y: s(jacket) + 5 },
      to: { x: -JACKET_PAGE_MM + 8, y: s(jacket) },
    },
    { words: 'dielectric', at: { x: a / 2 + 6, y: s(jacket) + 5 }, to: { x: a / 2, y: s(sleeve) } },
    { words: 'pin', at: { x: b + 6, y: s(pin) + 3 }, to: { x: b - 1, y: 0 } },
  ];
  const box = boxOf(-JACKET_PAGE_MM, -s(jacket) - 12, b, s(jacket) + 8);
  return {
    id: 'sketch-coax-end',
    caption: `The end of the cable: jacket cut back ${plain(dielectricMm + pinMm)} mm, dielectric cut back ${plain(pinMm)} mm. ${scale}:1, dimensions in mm.`,
    alt: `A coaxial cable whose pin stands ${plain(pinMm)} millimetres out of the dielectric, and the dielectric ${plain(dielectricMm)} millimetres out of the jacket.`,
    box: grow(union(box, pointersBox(pointers)), 1),
    toScale: true,
    draw: (pen) => {
      pen.box(boxOf(-JACKET_PAGE_MM, -s(jacket), 0, s(jacket)), OTHER_METAL);
      pen.box(boxOf(0, -s(sleeve), a, s(sleeve)), PLASTIC);
      pen.box(boxOf(a, -s(pin), b, s(pin)), METAL);
      drawSpan(pen, { from: 0, to: a, y: -s(jacket) - 4, edgeY: -s(jacket), words: plain(dielectricMm) });
      drawSpan(pen, { from: a, to: b, y: -s(jacket) - 4, edgeY: -s(pin), words: plain(pinMm) });
      drawSpan(pen, { from: 0, to: b, y: -s(jacket) - 10, edgeY: -s(jacket), words: plain(dielectricMm + pinMm) });
      drawPointers(pen, pointers);
    },
  };
}
