import type { Coax, Connector, Panel } from './types.ts';

type CoaxRow = Omit<Coax, 'kind' | 'impedanceOhm' | 'certainty'>;

/** Masses of the semi-rigid lines are computed from their cross-section: copper 8930, PTFE 2200, steel pin 7900 kg/m³. */
const ROWS: readonly CoaxRow[] = [
  {
    id: 'semi-rigid-141',
    label: 'semi-rigid coax, 3.58 mm copper jacket, PTFE, 50 ohm',
    pinMm: 0.92,
    dielectricMm: 2.98,
    jacketMm: 3.58,
    velocityFactor: 0.7,
    lossDbPerM: { at1GHz: 0.4, at5GHz: 0.95 },
    massGPerM: 47,
    bendRadiusMm: 6.4,
    source: 'MIL-DTL-17/130 type, 0.141 in',
  },
  {
    id: 'semi-rigid-086',
    label: 'semi-rigid coax, 2.18 mm copper jacket, PTFE, 50 ohm',
    pinMm: 0.51,
    dielectricMm: 1.68,
    jacketMm: 2.18,
    velocityFactor: 0.7,
    lossDbPerM: { at1GHz: 0.7, at5GHz: 1.6 },
    massGPerM: 20,
    bendRadiusMm: 3.2,
    source: 'MIL-DTL-17/133 type, 0.086 in',
  },
  {
    id: 'flex-2.5mm-ptfe-50',
    label: 'flexible coax, 2.5 mm, solid PTFE, one braid, 50 ohm',
    pinMm: 0.51,
    dielectricMm: 1.52,
    jacketMm: 2.49,
    velocityFactor: 0.695,
    lossDbPerM: { at1GHz: 0.95, at5GHz: 2.4 },
    massGPerM: 16,
    bendRadiusMm: 13,
    source: 'MIL-DTL-17/113 type; stranded centre, values rounded',
  },
  {
    id: 'flex-5mm-50',
    label: 'flexible coax, 5 mm, solid polyethylene, one braid, 50 ohm',
    pinMm: 0.9,
    dielectricMm: 2.95,
    jacketMm: 4.95,
    velocityFactor: 0.66,
    lossDbPerM: { at1GHz: 0.66, at5GHz: 1.8 },
    massGPerM: 37,
    bendRadiusMm: 25,
    source: 'MIL-DTL-17/28 type; stranded centre, values rounded',
  },
  {
    id: 'flex-5mm-foam-50',
    label: 'flexible coax, 5 mm, foamed polyethylene, foil and braid, 50 ohm',
    pinMm: 1.12,
    dielectricMm: 2.95,
    jacketMm: 4.95,
    velocityFactor: 0.83,
    lossDbPerM: { at1GHz: 0.34, at5GHz: 0.8 },
    massGPerM: 34,
    bendRadiusMm: 13,
    source: 'common low-loss construction, values rounded',
  },
  {
    id: 'flex-10mm-foam-50',
    label: 'flexible coax, 10 mm, foamed polyethylene, foil and braid, 50 ohm',
    pinMm: 2.74,
    dielectricMm: 7.24,
    jacketMm: 10.29,
    velocityFactor: 0.85,
    lossDbPerM: { at1GHz: 0.14, at5GHz: 0.34 },
    massGPerM: 101,
    bendRadiusMm: 25,
    source: 'common low-loss construction, values rounded',
  },
];

export const coaxes: readonly Coax[] = ROWS.map((row) => ({
  kind: 'coax',
  impedanceOhm: 50,
  certainty: 'memory',
  ...row,
}));

function cableConnector(id: string, label: string, massG: number): Connector {
  return {
    kind: 'connector',
    id,
    label,
    impedanceOhm: 50,
    mount: 'cable',
    pinHoleMm: 0,
    posts: [],
    massG,
    source: 'IEC 61169 interface family; mass rounded',
    certainty: 'memory',
  };
}

/** Four holes on a square of this side. */
function onSquare(sideMm: number, holeMm: number): Panel['holes'] {
  const half = sideMm / 2;
  return [
    [-half, -half, holeMm],
    [half, -half, holeMm],
    [half, half, holeMm],
    [-half, half, holeMm],
  ];
}

function panelConnector(row: Pick<Connector, 'id' | 'label' | 'massG' | 'source'>, panel: Panel): Connector {
  return {
    kind: 'connector',
    impedanceOhm: 50,
    mount: 'panel',
    pinHoleMm: 0,
    posts: [],
    panel,
    certainty: 'memory',
    ...row,
  };
}

const PANELS: readonly Connector[] = [
  panelConnector(
    {
      id: 'n-jack-panel-4',
      label: 'N jack with a square flange, four holes, 50 ohm',
      massG: 45,
      source:
        'trade pattern: 25.4 mm flange, holes on an 18.2 mm square, M3; hole for the boss recalled, measure yours',
    },
    { bodyHoleMm: 13, flangeMm: 25.4, holes: onSquare(18.2, 3.4) },
  ),
  panelConnector(
    {
      id: 'sma-jack-panel-4',
      label: 'SMA jack with a square flange, four holes, 50 ohm',
      massG: 5,
      source: 'trade pattern: 12.7 mm flange, holes on an 8.6 mm square, M2.5; dielectric of 4.1 mm',
    },
    { bodyHoleMm: 4.3, flangeMm: 12.7, holes: onSquare(8.6, 2.7) },
  ),
  panelConnector(
    {
      id: 'sma-jack-panel-2',
      label: 'SMA jack with a narrow flange, two holes, 50 ohm',
      massG: 4,
      source: 'trade pattern: 15.9 mm flange, holes 12.2 mm apart, M2.5; dielectric of 4.1 mm',
    },
    {
      bodyHoleMm: 4.3,
      flangeMm: 15.9,
      holes: [
        [-6.1, 0, 2.7],
        [6.1, 0, 2.7],
      ],
    },
  ),
];

export const connectors: readonly Connector[] = [
  cableConnector('sma-plug-cable', 'SMA plug for cable, 50 ohm', 3),
  cableConnector('sma-jack-cable', 'SMA jack for cable, 50 ohm', 4),
  cableConnector('n-plug-cable', 'N plug for cable, 50 ohm', 25),
  cableConnector('n-jack-cable', 'N jack for cable, 50 ohm', 25),
  {
    kind: 'connector',
    id: 'sma-board',
    label: 'SMA jack for boards, straight, four ground posts, 50 ohm',
    impedanceOhm: 50,
    mount: 'board',
    pinHoleMm: 1.5,
    posts: [
      [-2.54, -2.54, 1.6],
      [2.54, -2.54, 1.6],
      [2.54, 2.54, 1.6],
      [-2.54, 2.54, 1.6],
    ],
    massG: 3.5,
    source: 'common footprint, posts on a 5.08 mm square',
    certainty: 'memory',
  },
  ...PANELS,
];
