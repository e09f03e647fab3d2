import type { Assembly, BoardPart, CopperPiece, PlatePart } from '@sheetwave/geometry';
import {
  circleContour,
  offsetContour,
  polygonContour,
  rectangleContour,
  roundedRectangleContour,
} from '@sheetwave/geometry';

// Parts built by hand, with every construct that a cut or copper file can hold. Their measures follow from the numbers here.

const own = { source: 'given in the test', certainty: 'own' } as const;
const centre = { x: 0, y: 0 };

const copperSheet: PlatePart['sheet'] = {
  ...own,
  kind: 'sheet',
  id: 'copper-0.8',
  label: 'copper sheet 0.8 mm',
  material: { name: 'copper', densityKgM3: 8960, conductivitySm: 5.8e7 },
  thicknessMm: 0.8,
  sizesMm: [[200, 300]],
};

type Process = PlatePart['process'];

const process: Process = {
  ...own,
  id: 'hand',
  label: 'hand tools',
  kerfMm: 0,
  compensateKerf: false,
  allowanceMm: 0,
  smallestRadiusMm: 0,
  lineWidthMm: 0,
  insideCorners: 'as-drawn',
  leadInMm: 0,
  tabs: { count: 0, widthMm: 0.5, belowMm: 50 },
  spacingMm: 3,
  edgeMarginMm: 5,
  etchFactor: 0,
  undercutMm: 0,
  leastWebMm: 1,
  toleranceMm: 0.2,
};

const handProcess: Process = { ...process, allowanceMm: 0.5 };
export const laserProcess: Process = {
  ...process,
  id: 'laser',
  label: 'laser cutting',
  kerfMm: 0.2,
  compensateKerf: false,
  smallestRadiusMm: 0.5,
};
const etchProcess: Process = { ...process, id: 'etch', label: 'etching' };

/** A rounded plate with an off-centre slot and two sizes of holes: 3.2 mm is above the smallest cut hole, 0.6 mm below. */
export const plate: PlatePart = {
  form: 'plate',
  role: 'patch',
  id: 'patch-driven',
  name: 'driven patch',
  quantity: 4,
  sheet: copperSheet,
  outline: {
    outer: roundedRectangleContour({ centre, widthMm: 60, heightMm: 42, radiusMm: 4 }),
    cutouts: [slot()],
    holes: [
      { purpose: 'fixing', centre, diameterMm: 3.2, plated: false },
      { purpose: 'feed', centre: { x: 0, y: -12.5 }, diameterMm: 0.6, plated: false },
    ],
  },
  marks: [
    { kind: 'line', purpose: 'centre', from: { x: 0, y: -21 }, to: { x: 0, y: 21 } },
    { kind: 'circle', purpose: 'solder-land', centre: { x: 0, y: -12.5 }, diameterMm: 3 },
    { kind: 'text', purpose: 'feed-edge', at: { x: 0, y: -20 }, text: 'feed edge', heightMm: 2 },
  ],
  process: handProcess,
};

/** 14 mm long over all and 4 mm wide with round ends, about (15, 5); clockwise as cut-outs are. */
function slot(): PlatePart['outline']['outer'] {
  return {
    kind: 'path',
    start: { x: 10, y: 3 },
    segments: [
      { kind: 'arc', to: { x: 10, y: 7 }, centre: { x: 10, y: 5 }, sense: 'cw' },
      { kind: 'line', to: { x: 20, y: 7 } },
      { kind: 'arc', to: { x: 20, y: 3 }, centre: { x: 20, y: 5 }, sense: 'cw' },
      { kind: 'line', to: { x: 10, y: 3 } },
    ],
  };
}

/** A disc of 46 mm diameter. */
export const disc: PlatePart = {
  ...plate,
  id: 'patch-upper',
  name: 'upper patch',
  outline: { outer: circleContour(centre, 23), cutouts: [], holes: plate.outline.holes.slice(0, 1) },
  marks: [],
};

const laminate: BoardPart['laminate'] = {
  ...own,
  kind: 'laminate',
  id: 'low-loss-1.5',
  label: 'low-loss laminate 1.524 mm',
  permittivity: 3.55,
  lossTangent: 0.0027,
  atHz: 1e10,
  thicknessMm: 1.524,
  copperMm: 0.035,
  densityKgM3: 1850,
  lossy: false,
};

const dark = (purpose: CopperPiece['purpose'], contour: CopperPiece['contour']): CopperPiece => ({
  purpose,
  polarity: 'dark',
  contour,
});

/** A disc patch of 20 mm radius on a 50 mm square board with one hole. */
export const patchBoard: BoardPart = {
  form: 'board',
  role: 'patch',
  id: 'patch-outer',
  name: 'outer patch',
  quantity: 2,
  laminate,
  outline: {
    outer: rectangleContour({ centre, widthMm: 50, heightMm: 50 }),
    cutouts: [],
    holes: [{ purpose: 'fixing', centre, diameterMm: 3.2, plated: false }],
  },
  copper: { top: [dark('patch', circleContour(centre, 20))], bottom: [] },
  maskOpenings: { top: [circleContour(centre, 20.1)], bottom: [] },
  marks: [
    { kind: 'line', purpose: 'centre', from: { x: 0, y: -20 }, to: { x: 0, y: 20 } },
    { kind: 'text', purpose: 'feed-edge', at: { x: 0, y: -19 }, text: 'feed edge', heightMm: 2 },
  ],
  process: etchProcess,
};

const connectorPin = { x: 0, y: -30 };
const posts = [
  { x: -2.54, y: -32.54 },
  { x: 2.54, y: -32.54 },
];
const patch = polygonContour([
  { x: -18, y: -5 },
  { x: -3, y: -5 },
  { x: -3, y: 3 },
  { x: 3, y: 3 },
  { x: 3, y: -5 },
  { x: 18, y: -5 },
  { x: 18, y: 22 },
  { x: -18, y: 22 },
]);
const line = rectangleContour({ centre: { x: 0, y: -13 }, widthMm: 3.4, heightMm: 34 });
const lands = [
  dark('land', circleContour(connectorPin, 1.4)),
  ...posts.map((at) => dark('land', circleContour(at, 1.1))),
];

/** 80 x 90 mm with round corners: an inset-fed patch, its line and three lands on top; the plane with a clearance below. */
export const reflectorBoard: BoardPart = {
  form: 'board',
  role: 'reflector',
  id: 'reflector',
  name: 'reflector',
  quantity: 1,
  laminate,
  outline: {
    outer: roundedRectangleContour({ centre, widthMm: 80, heightMm: 90, radiusMm: 5 }),
    cutouts: [],
    holes: [
      ...[
        [-35, -40],
        [35, -40],
        [35, 40],
        [-35, 40],
      ].map(([x = 0, y = 0]) => ({ purpose: 'mounting' as const, centre: { x, y }, diameterMm: 4.3, plated: false })),
      { purpose: 'connector-pin', centre: connectorPin, diameterMm: 1.3, plated: true },
      ...posts.map((at) => ({ purpose: 'connector-post' as const, centre: at, diameterMm: 1.6, plated: true })),
    ],
  },
  copper: {
    top: [dark('patch', patch), dark('line', line), ...lands],
    bottom: [
      dark('plane', roundedRectangleContour({ centre, widthMm: 79, heightMm: 89, radiusMm: 4.5 })),
      { purpose: 'clearance', polarity: 'clear', contour: circleContour(connectorPin, 2.05) },
    ],
  },
  maskOpenings: {
    top: [patch, line, ...lands.map(({ contour }) => contour)].map((contour) => offsetContour(contour, 0.1)),
    bottom: [circleContour(connectorPin, 6)],
  },
  marks: [],
  process: etchProcess,
};

/** An assembly of these parts; the emitters of cut and copper files read nothing else of it. */
export function assemblyOf(parts: readonly (PlatePart | BoardPart)[]): Assembly {
  const design = { name: 'Heron Lock panel', revision: 'B', notes: '', date: '2026-05-17' };
  return { design, parts, placements: [], elements: [], layerHeights: [], harness: [] } as unknown as Assembly;
}
