import type { Laminate } from './types.ts';

interface Family {
  readonly id: string;
  readonly label: string;
  readonly permittivity: number;
  readonly lossTangent: number;
  readonly atHz: number;
  readonly densityKgM3: number;
  readonly lossy: boolean;
  /** Dielectric thickness and copper in um; both sides clad. */
  readonly sizes: readonly (readonly [thicknessMm: number, copperUm: number])[];
  readonly source: string;
}

const FAMILIES: readonly Family[] = [
  {
    id: 'fr4',
    label: 'glass-epoxy laminate FR-4',
    permittivity: 4.3,
    lossTangent: 0.02,
    atHz: 2.4e9,
    densityKgM3: 1850,
    lossy: true,
    sizes: [
      [0.4, 35],
      [0.8, 35],
      [1, 35],
      [1.6, 35],
      [1.6, 70],
    ],
    source: 'IPC-4101 class, permittivity 4.2 to 4.5 with 5 % between lots: measure a coupon',
  },
  {
    id: 'ptfe-glass',
    label: 'PTFE laminate with glass microfibre',
    permittivity: 2.2,
    lossTangent: 0.0009,
    atHz: 10e9,
    densityKgM3: 2200,
    lossy: false,
    sizes: [
      [0.254, 35],
      [0.508, 35],
      [0.787, 35],
      [1.575, 35],
    ],
    source: 'IPC-4103 class, permittivity 2.20 +-0.02',
  },
  {
    id: 'ptfe-woven',
    label: 'PTFE laminate with woven glass',
    permittivity: 2.5,
    lossTangent: 0.0019,
    atHz: 10e9,
    densityKgM3: 2300,
    lossy: false,
    sizes: [
      [0.508, 35],
      [0.762, 35],
      [0.787, 35],
      [1.524, 35],
    ],
    source: 'IPC-4103 class, permittivity 2.50 to 2.65',
  },
  {
    id: 'hydrocarbon',
    label: 'hydrocarbon-ceramic laminate',
    permittivity: 3.38,
    lossTangent: 0.0027,
    atHz: 10e9,
    densityKgM3: 1790,
    lossy: false,
    sizes: [
      [0.508, 35],
      [0.813, 35],
      [1.524, 35],
    ],
    source: 'IPC-4103 class, permittivity 3.38 to 3.66',
  },
];

function familyLaminates(family: Family): Laminate[] {
  const { id, label, sizes, source, ...electrical } = family;
  return sizes.map(
    ([thicknessMm, copperUm]): Laminate => ({
      kind: 'laminate',
      id: `${id}-${thicknessMm === 1 ? '1.0' : thicknessMm}-${copperUm}`,
      label: `${label}, ${thicknessMm} mm, ${copperUm} um copper on both sides`,
      thicknessMm,
      copperMm: copperUm / 1000,
      source,
      certainty: 'memory',
      ...electrical,
    }),
  );
}

export const laminates: readonly Laminate[] = FAMILIES.flatMap(familyLaminates);
