/** Scales of drawings (ISO 5455; 1:20 and smaller are not needed for antennas that fit a table). */
const SCALES = [5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50] as const;

/** The largest of them at which something fits into the room. */
export function scaleFor(
  size: { readonly widthMm: number; readonly heightMm: number },
  room: { readonly widthMm: number; readonly heightMm: number },
): number {
  const fit = SCALES.find((scale) => size.widthMm * scale <= room.widthMm && size.heightMm * scale <= room.heightMm);
  return fit ?? 1 / 50;
}

/** `Scale 1:2`. */
export const scaleWords = (scale: number): string =>
  `Scale ${scale >= 1 ? `${scale}:1` : `1:${Math.round(1 / scale)}`}`;
