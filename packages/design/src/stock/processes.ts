import type { Process } from './process.ts';

const HAND: Process = {
  id: 'hand',
  label: 'cut by hand',
  kerfMm: 0,
  compensateKerf: false,
  allowanceMm: 0.5,
  smallestRadiusMm: 0.5,
  undercutMm: 0,
  leastWebMm: 2,
  toleranceMm: 0.3,
  source: "jeweller's saw or scroll saw and file: +-0.2 to 0.3 mm with care; web by shop rule",
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
    leastWebMm: 1,
    toleranceMm: 0.1,
    source: 'fibre laser, brass and copper up to 3 mm: kerf 0.1 to 0.3 mm (laser cutting handbook), web by shop rule',
  },
  waterjet: {
    ...HAND,
    id: 'waterjet',
    label: 'water-jet cut',
    kerfMm: 0.9,
    allowanceMm: 0,
    leastWebMm: 1.5,
    toleranceMm: 0.2,
    source: 'abrasive water jet: sources give 0.4 to more than 2 mm, 0.9 +-0.2 assumed; ask the shop',
  },
  mill: {
    ...HAND,
    id: 'mill',
    label: 'milled',
    kerfMm: 2,
    allowanceMm: 0,
    smallestRadiusMm: 1.1,
    leastWebMm: 1,
    toleranceMm: 0.05,
    source: '2 mm end mill; inside radius is the tool radius and a tenth',
    certainty: 'common practice',
  },
  etch: {
    ...HAND,
    id: 'etch',
    label: 'etched board',
    allowanceMm: 0,
    smallestRadiusMm: 0.15,
    undercutMm: 0.025,
    leastWebMm: 1,
    toleranceMm: 0.06,
    source: 'etch factor about 1.4 on 35 um copper (IPC-T-50 definition); width +-0.06 mm as IPC-2221 level A',
  },
} satisfies Record<Process['id'], Process>);

export const processIds = ['hand', 'laser', 'waterjet', 'mill', 'etch'] as const satisfies readonly Process['id'][];
