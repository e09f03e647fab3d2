import { type MaterialName, materials } from './materials.ts';
import type { Thread } from './threads.ts';
import type { Certainty, Nut, Washer } from './types.ts';

const METALS = ['brass', 'steel', 'stainless', 'nylon'] as const;
type Metal = (typeof METALS)[number];
const MATERIAL_OF: Readonly<Record<Metal, MaterialName>> = {
  brass: 'free-cutting-brass',
  steel: 'steel',
  stainless: 'stainless',
  nylon: 'nylon',
};

interface NutRow {
  readonly thread: Thread;
  /** Width across flats s. */
  readonly acrossMm: number;
  /** Largest height m of ISO 4032 and of the thin ISO 4035. */
  readonly heightMm: number;
  readonly thinMm: number;
  readonly certainty: Certainty;
  readonly washer: readonly [innerMm: number, outerMm: number, thicknessMm: number];
}

const ROWS: readonly NutRow[] = [
  { thread: 'M2', acrossMm: 4, heightMm: 1.6, thinMm: 1.2, certainty: 'confirmed', washer: [2.2, 5, 0.3] },
  { thread: 'M2.5', acrossMm: 5, heightMm: 2, thinMm: 1.6, certainty: 'confirmed', washer: [2.7, 6, 0.5] },
  { thread: 'M3', acrossMm: 5.5, heightMm: 2.4, thinMm: 1.8, certainty: 'confirmed', washer: [3.2, 7, 0.5] },
  { thread: 'M4', acrossMm: 7, heightMm: 3.2, thinMm: 2.2, certainty: 'confirmed', washer: [4.3, 9, 0.8] },
  { thread: 'M5', acrossMm: 8, heightMm: 4.7, thinMm: 2.7, certainty: 'confirmed', washer: [5.3, 10, 1] },
  { thread: 'M6', acrossMm: 10, heightMm: 5.2, thinMm: 3.2, certainty: 'memory', washer: [6.4, 12, 1.6] },
];

function nut(row: NutRow, thin: boolean, metal: Metal): Nut {
  return {
    kind: 'nut',
    id: `${row.thread.toLowerCase()}-${thin ? 'thin-nut' : 'nut'}-${metal}`,
    label: `${row.thread} ${thin ? 'thin hexagon nut' : 'hexagon nut'}, ${metal}`,
    material: materials[MATERIAL_OF[metal]],
    thread: row.thread,
    acrossMm: row.acrossMm,
    heightMm: thin ? row.thinMm : row.heightMm,
    source: thin ? 'ISO 4035, largest height' : 'ISO 4032, width across flats and largest height',
    certainty: thin ? 'memory' : row.certainty,
  };
}

function washer(row: NutRow, metal: Metal): Washer {
  const [innerMm, outerMm, thicknessMm] = row.washer;
  return {
    kind: 'washer',
    id: `${row.thread.toLowerCase()}-washer-${metal}`,
    label: `${row.thread} washer, ${metal}`,
    material: materials[MATERIAL_OF[metal]],
    thread: row.thread,
    innerMm,
    outerMm,
    thicknessMm,
    source: 'ISO 7089 nominal dimensions',
    certainty: 'memory',
  };
}

export const nuts: readonly Nut[] = ROWS.flatMap((row) =>
  [false, true].flatMap((thin) => METALS.map((metal) => nut(row, thin, metal))),
);
export const washers: readonly Washer[] = ROWS.flatMap((row) => METALS.map((metal) => washer(row, metal)));
