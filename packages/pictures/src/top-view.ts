import type { Assembly, Bounds, Part } from '@sheetwave/geometry';

/** Longer side of the reflector on the page. */
export const DRAWN_MM = 150;

/** An antenna seen from in front, at the scale of a picture. */
export interface View {
  readonly assembly: Assembly;
  /** Page mm for one mm of antenna. */
  readonly scale: number;
  /** The reflector on the page. */
  readonly reflector: Bounds;
  readonly parts: ReadonlyMap<string, Part>;
}

export function viewOf(assembly: Assembly, drawnMm: number): View {
  const { widthMm, heightMm } = assembly.reflector;
  const scale = drawnMm / Math.max(widthMm, heightMm);
  const half = { x: (widthMm / 2) * scale, y: (heightMm / 2) * scale };
  return {
    assembly,
    scale,
    reflector: { minX: -half.x, maxX: half.x, minY: -half.y, maxY: half.y },
    parts: new Map(assembly.parts.map((part) => [part.id, part])),
  };
}
