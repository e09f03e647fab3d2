import { type MaterialName, materials } from './materials.ts';
import type { Certainty, Sheet } from './types.ts';

type Sizes = readonly (readonly [number, number])[];

/** Hobby and trade sizes, mm; shop memory. */
const METRIC_SIZES: Sizes = [
  [100, 200],
  [100, 250],
  [200, 300],
  [300, 300],
  [300, 600],
  [500, 1000],
  [600, 1200],
  [1000, 2000],
];
const INCH_SIZES: Sizes = [
  [304.8, 304.8],
  [304.8, 609.6],
  [914.4, 2438.4],
];

interface Row {
  readonly id: string;
  readonly material: MaterialName;
  readonly thicknessMm: number;
  readonly gauge?: string;
  readonly sizesMm: Sizes;
  readonly source: string;
  readonly certainty: Certainty;
}

function sheet(row: Row): Sheet {
  const gauge = row.gauge === undefined ? '' : ` (${row.gauge})`;
  return {
    kind: 'sheet',
    id: row.id,
    label: `${materials[row.material].name} sheet ${row.thicknessMm} mm${gauge}`,
    material: materials[row.material],
    thicknessMm: row.thicknessMm,
    sizesMm: row.sizesMm,
    source: row.source,
    certainty: row.certainty,
  };
}

function metric(material: MaterialName, thicknesses: readonly number[]): Sheet[] {
  return thicknesses.map((thicknessMm) =>
    sheet({
      id: `${material}-${thicknessMm.toFixed(1)}`,
      material,
      thicknessMm,
      sizesMm: METRIC_SIZES,
      source: 'metric trade thickness',
      certainty: 'memory',
    }),
  );
}

/** t = 0.127 mm x 92^((36 - n) / 39), the American Wire Gauge series (ASTM B258), rounded to 1 um. */
function awgThicknessMm(gauge: number): number {
  return Math.round(0.127 * 92 ** ((36 - gauge) / 39) * 1000) / 1000;
}

function awg(material: MaterialName, gauges: readonly number[]): Sheet[] {
  return gauges.map((gauge) =>
    sheet({
      id: `${material}-${gauge}awg`,
      material,
      thicknessMm: awgThicknessMm(gauge),
      gauge: `${gauge} AWG`,
      sizesMm: INCH_SIZES,
      source: 'American Wire Gauge, ASTM B258: 0.127 mm x 92^((36 - n)/39)',
      certainty: 'computed',
    }),
  );
}

function gauged(
  material: MaterialName,
  rows: readonly (readonly [suffix: string, gauge: string, mm: number])[],
  source: string,
): Sheet[] {
  return rows.map(([suffix, gauge, thicknessMm]) =>
    sheet({
      id: `${material}-${suffix}`,
      material,
      thicknessMm,
      gauge,
      sizesMm: INCH_SIZES,
      source,
      certainty: 'memory',
    }),
  );
}

export const sheets: readonly Sheet[] = [
  ...metric('brass', [0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.5, 2]),
  ...metric('copper', [0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1]),
  ...metric('aluminium', [0.5, 0.8, 1, 1.2, 1.5, 2]),
  ...metric('phosphor-bronze', [0.3, 0.5]),
  ...awg('brass', [14, 16, 18, 20, 22, 24, 26, 28]),
  ...gauged(
    'brass',
    [
      ['16swg', '16 SWG', 1.626],
      ['18swg', '18 SWG', 1.219],
      ['20swg', '20 SWG', 0.914],
      ['22swg', '22 SWG', 0.711],
      ['24swg', '24 SWG', 0.559],
      ['26swg', '26 SWG', 0.457],
    ],
    'Standard Wire Gauge, BS 3737',
  ),
  ...gauged(
    'copper',
    [
      ['16oz', '16 oz/ft2', 0.55],
      ['20oz', '20 oz/ft2', 0.69],
      ['24oz', '24 oz/ft2', 0.82],
    ],
    'roofing copper by weight, ASTM B370',
  ),
];
