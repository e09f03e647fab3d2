import type { Certainty, Material } from './types.ts';

interface MaterialRow extends Material {
  readonly source: string;
  readonly certainty: Certainty;
}

function material(name: string, densityKgM3: number, conductivityMSm: number, source: string): MaterialRow {
  return Object.freeze({ name, densityKgM3, conductivitySm: conductivityMSm * 1e6, source, certainty: 'memory' });
}

/** Materials by the word a design file uses. Density in kg/m³, conductivity in S/m at 20 °C, 0 for an insulator. */
export const materials = Object.freeze({
  copper: material('copper', 8930, 58, 'Cu-ETP (CW004A); 58 MS/m is the 100 % IACS definition of IEC 60028'),
  brass: material('brass', 8440, 15.5, 'CuZn37 (CW508L), half hard sheet; conductor tables'),
  'free-cutting-brass': material(
    'free-cutting brass',
    8470,
    14.5,
    'CuZn39Pb3 (CW614N), turned parts and rod; conductor tables',
  ),
  'phosphor-bronze': material('phosphor bronze', 8800, 9, 'CuSn6 (CW452K); conductor tables, range 7.5 to 11 MS/m'),
  aluminium: material('aluminium', 2700, 35, 'EN AW-1050A H14; conductor tables'),
  silver: material('silver', 10490, 62.5, '99.9 % silver; conductor tables'),
  steel: material('zinc-plated steel', 7850, 6, 'carbon steel; handbook value'),
  stainless: material('stainless steel', 7900, 1.39, '1.4301; conductor tables'),
  nylon: material('nylon', 1140, 0, 'PA66, dry; handbook value'),
  ptfe: material('PTFE', 2200, 0, 'solid PTFE; handbook value'),
  polystyrene: material('polystyrene', 1050, 0, 'solid polystyrene; handbook value'),
});

export type MaterialName = keyof typeof materials;
export const materialNames = Object.freeze(Object.keys(materials)) as readonly MaterialName[];
