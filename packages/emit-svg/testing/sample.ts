import type { Assembly, Hole, PlatePart } from '@sheetwave/geometry';
import { circleContour, rectangleContour } from '@sheetwave/geometry';

const source = 'made up for this test';
const brass = { name: 'brass', densityKgM3: 8500, conductivitySm: 15.9e6 } as const;
const sheet = {
  kind: 'sheet',
  id: 'brass-0.8',
  label: 'Brass sheet 0.8 mm',
  source,
  certainty: 'own',
  material: brass,
  thicknessMm: 0.8,
  sizesMm: [[600, 600]],
} as const;
const hand = {
  id: 'hand',
  label: 'saw and file',
  kerfMm: 0.4,
  compensateKerf: false,
  allowanceMm: 1,
  smallestRadiusMm: 0.5,
  lineWidthMm: 0,
  insideCorners: 'as-drawn',
  leadInMm: 0,
  tabs: { count: 0, widthMm: 0.5, belowMm: 50 },
  spacingMm: 3,
  edgeMarginMm: 5,
  etchFactor: 0,
  undercutMm: 0,
  leastWebMm: 1.5,
  toleranceMm: 0.2,
  source,
  certainty: 'own',
} as const;

export function plate(id: string, size: { widthMm: number; heightMm: number; holes: readonly Hole[] }): PlatePart {
  return {
    form: 'plate',
    role: id === 'reflector' ? 'reflector' : 'patch',
    id,
    name: id.replaceAll('-', ' '),
    quantity: 4,
    sheet,
    process: hand,
    outline: { outer: rectangleContour({ centre: { x: 0, y: 0 }, ...size }), cutouts: [], holes: size.holes },
    marks: [],
  };
}
export const hole = (x: number, y: number, diameterMm: number, purpose: Hole['purpose'] = 'fixing'): Hole => ({
  purpose,
  centre: { x, y },
  diameterMm,
  plated: false,
});

export function disc(id: string, diameterMm: number, holes: readonly Hole[]): PlatePart {
  const base = plate(id, { widthMm: 1, heightMm: 1, holes });
  return { ...base, outline: { ...base.outline, outer: circleContour({ x: 0, y: 0 }, diameterMm / 2) } };
}

export function assemblyOf(parts: Assembly['parts']): Assembly {
  return {
    design: { name: 'Heron Lock', revision: 'B', date: '2026-05-17' } as Assembly['design'],
    parts,
    placements: [],
    elements: [],
    layerHeights: [],
    reflector: { widthMm: 1, heightMm: 1, thicknessMm: 1 },
    coaxPoint: { x: 0, y: 0 },
    harness: [],
    reflectorRule: '',
  };
}
