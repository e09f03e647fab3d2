import { DrawingFault } from './fault.ts';

/** Millimetres in one unit of a drawing. */
export const UNIT_MM = { mm: 1, cm: 10, m: 1000, um: 0.001, in: 25.4, mil: 0.0254 } as const;
export type DrawingUnit = keyof typeof UNIT_MM;

/**
 * Millimetres in one unit: what the file says, else what the design says.
 * Throws a DrawingFault when neither says it, or when they disagree.
 */
export function unitOf(
  own: { readonly mm: number; readonly words: string } | undefined,
  given: DrawingUnit | undefined,
): number {
  if (own === undefined && given === undefined) {
    const allowed = 'does not say in which unit it is drawn';
    throw new DrawingFault('units-missing', allowed, 'add units = "mm", or the unit it is drawn in, to the layer');
  }
  if (own === undefined) return UNIT_MM[given ?? 'mm'];
  if (given === undefined || Math.abs(UNIT_MM[given] / own.mm - 1) < 1e-6) return own.mm;
  const allowed = `says that it is drawn in ${own.words}, and the design says ${given}`;
  throw new DrawingFault('units-differ', allowed, 'leave units out, or correct the drawing');
}
