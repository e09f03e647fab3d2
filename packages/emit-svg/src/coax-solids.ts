import { type Assembly, coaxPinRiseMm, type Point, reflectorUndersideMm } from '@sheetwave/geometry';
import { round, type Solid, solid } from './hardware-solids.ts';
import { TONES, type Tones } from './palette.ts';

/** Length of cable that is drawn; the rest goes on to its connector. */
const STUMP_MM = 16;

/** The end of the cable at the reflector: jacket to its back, dielectric through it, pin up to the harness or the patch. */
export function coaxSolid(assembly: Assembly, centre: Point): Solid {
  const { design } = assembly;
  const { coax } = design.coax;
  const underside = reflectorUndersideMm(design);
  const rise = coaxPinRiseMm(design, assembly.layerHeights[0]?.topMm ?? 0);
  const piece = (tones: Tones, outerMm: number, z: readonly [number, number]) =>
    round({ centre, tones }, { outerMm, z });
  return solid([
    piece(TONES.copper, coax.jacketMm, [underside - STUMP_MM, underside]),
    piece(TONES.plastic, coax.dielectricMm, [underside, underside + assembly.reflector.thicknessMm]),
    piece(TONES.steel, coax.pinMm, [underside + assembly.reflector.thicknessMm, rise]),
  ]);
}

/** A connector as a flange or a nut with its thread: a sketch, since a stock row carries no outside sizes. */
export function connectorSolid(assembly: Assembly, centre: Point): Solid {
  const { connector } = assembly.design.coax;
  const underside = reflectorUndersideMm(assembly.design);
  const reach = Math.max(3, ...(connector?.posts ?? []).map(([x, y]) => Math.max(Math.abs(x), Math.abs(y)) + 0.8));
  const square = [
    { x: centre.x - reach, y: centre.y - reach },
    { x: centre.x + reach, y: centre.y - reach },
    { x: centre.x + reach, y: centre.y + reach },
    { x: centre.x - reach, y: centre.y + reach },
  ];
  const threadMm = Math.min(6.4, reach * 1.6);
  return solid([
    round({ centre, tones: TONES.steel }, { outerMm: threadMm, z: [underside - 11, underside - 2] }),
    { outer: square, holes: [], from: underside - 2, to: underside, tones: TONES.steel },
  ]);
}
