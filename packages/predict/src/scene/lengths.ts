import type { PlanePoint, Position } from '@sheetwave/field';
import type { Point, Point3 } from '@sheetwave/geometry';

/**
 * Millimetres of the assembly to metres of the scene: the one place. On a grid of a nanometre, so that places that mirror
 * each other in the design do so exactly in the scene.
 */
export const metres = (mm: number): number => (Math.sign(mm) * Math.round(Math.abs(mm) * 1e6)) / 1e9 + 0;

export const planePoint = ({ x, y }: Point): PlanePoint => [metres(x), metres(y)];

export const position = ({ x, y, z }: Point3): Position => [metres(x), metres(y), metres(z)];
