import { around, boxCorners } from '@sheetwave/drawings';
import { type Assembly, type BoughtPart, coaxPinRiseMm, type Point, reflectorUndersideMm } from '@sheetwave/geometry';
import { round, type Solid, solid } from './hardware-solids.ts';
import { hexagon } from './hexagon.ts';
import { TONES, type Tones } from './palette.ts';

type Connector = Extract<BoughtPart['item'], { kind: 'connector' }>;

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

/**
 * A connector as a sketch, since a stock row carries no outside sizes: on a board a flange with its thread behind it,
 * on a cable a nut with its sleeve at the cable's far end.
 */
export function connectorSolid(assembly: Assembly, centre: Point): Solid {
  const { connector } = assembly.design.coax;
  const underside = reflectorUndersideMm(assembly.design);
  if (connector?.mount === 'cable') return cableConnector(centre, underside - STUMP_MM);
  const flange = connector?.panel && {
    halfMm: connector.panel.flangeMm / 2,
    bodyMm: (connector.panel.flangeMm * 2) / 3,
  };
  return boardConnector(centre, underside, flange ?? flangeAround(connector?.posts ?? []));
}

interface Flange {
  readonly halfMm: number;
  readonly bodyMm: number;
}

function flangeAround(posts: Connector['posts']): Flange {
  const halfMm = Math.max(3, ...posts.map(([x, y]) => Math.max(Math.abs(x), Math.abs(y)) + 0.8));
  return { halfMm, bodyMm: Math.min(6.4, halfMm * 1.6) };
}

function boardConnector(centre: Point, top: number, { halfMm, bodyMm }: Flange): Solid {
  const square = boxCorners(around(centre, halfMm));
  return solid([
    round({ centre, tones: TONES.steel }, { outerMm: bodyMm, z: [top - 11, top - 2] }),
    { outer: square, holes: [], from: top - 2, to: top, tones: TONES.steel },
  ]);
}

function cableConnector(centre: Point, top: number): Solid {
  return solid([
    { outer: hexagon(centre, 11), holes: [], from: top - 11, to: top - 4, tones: TONES.steel },
    round({ centre, tones: TONES.steel }, { outerMm: 6.5, z: [top - 4, top] }),
  ]);
}
