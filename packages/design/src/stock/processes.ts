import type { Process } from './process.ts';

const HAND: Process = {
  id: 'hand',
  label: 'cut by hand',
  kerfMm: 0,
  compensateKerf: false,
  allowanceMm: 0.5,
  lineWidthMm: 0,
  smallestRadiusMm: 0.5,
  insideCorners: 'as-drawn',
  leadInMm: 0,
  tabs: { count: 0, widthMm: 0.5, belowMm: 50 },
  spacingMm: 3,
  edgeMarginMm: 5,
  undercutMm: 0,
  etchFactor: 0,
  leastWebMm: 2,
  toleranceMm: 0.3,
  source:
    "jeweller's saw or scroll saw and file: +-0.2 to 0.3 mm with care; web by shop rule; spacing lets a blade pass, the edge is for clamps (common practice, no source)",
  certainty: 'memory',
};

/** What each process does to a part unless the design file says otherwise. Lengths in mm. Ask the shop and override what differs. */
export const processes: Readonly<Record<Process['id'], Process>> = Object.freeze({
  hand: HAND,
  laser: {
    ...HAND,
    id: 'laser',
    label: 'laser cut',
    kerfMm: 0.2,
    allowanceMm: 0,
    smallestRadiusMm: 0.2,
    insideCorners: 'round',
    leastWebMm: 1,
    toleranceMm: 0.1,
    source:
      'fibre laser, brass and copper up to 3 mm: kerf 0.1 to 0.3 mm (laser cutting handbook), web by shop rule; spacing of the thickness and at least 3 mm, 5 mm to the edge (common practice, no source)',
  },
  waterjet: {
    ...HAND,
    id: 'waterjet',
    label: 'water-jet cut',
    kerfMm: 0.9,
    allowanceMm: 0,
    insideCorners: 'round',
    spacingMm: 4,
    edgeMarginMm: 10,
    leastWebMm: 1.5,
    toleranceMm: 0.2,
    source:
      'abrasive water jet: sources give 0.4 to more than 2 mm, 0.9 +-0.2 assumed; ask the shop; spacing and edge by common practice, no source',
  },
  mill: {
    ...HAND,
    id: 'mill',
    label: 'milled',
    kerfMm: 2,
    allowanceMm: 0,
    smallestRadiusMm: 1.1,
    insideCorners: 'round',
    spacingMm: 6,
    edgeMarginMm: 12,
    leastWebMm: 1,
    toleranceMm: 0.05,
    source:
      '2 mm end mill; inside radius is the tool radius and a tenth; spacing of three tool diameters, the edge is for clamps',
    certainty: 'common practice',
  },
  etch: {
    ...HAND,
    id: 'etch',
    label: 'etched board',
    allowanceMm: 0,
    smallestRadiusMm: 0.15,
    undercutMm: 0.025,
    etchFactor: 1.4,
    leastWebMm: 1,
    toleranceMm: 0.06,
    source:
      'etch factor 1 to 2 in a tray at home, 2 to 4 in a spray line (IPC-T-50 definition), 1.4 assumed: 0.025 mm on 35 um copper; width +-0.06 mm as IPC-2221 level A',
  },
} satisfies Record<Process['id'], Process>);

export const processIds = ['hand', 'laser', 'waterjet', 'mill', 'etch'] as const satisfies readonly Process['id'][];
