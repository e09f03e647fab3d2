import { type MaterialName, materials } from './materials.ts';
import { clearanceHoleMm, type Thread } from './threads.ts';
import type { Spacer, SpacerEnd } from './types.ts';

const LENGTHS_MM = [5, 6, 8, 10, 12, 15, 16, 18, 20, 25, 30, 35, 40, 50];
const PLAIN_LENGTHS_MM = [2, 3, 4, ...LENGTHS_MM];
const STUD_MM = 6;
/** Bodies up to this length are threaded over their whole length. */
const THROUGH_UP_TO_MM = 12;
/** Thread depth of each end of a longer body. */
const BLIND_DEPTH_MM = 8;

const ENDS: Readonly<
  Record<'mf' | 'ff' | 'mm', { readonly ends: readonly [SpacerEnd, SpacerEnd]; readonly words: string }>
> = {
  mf: { ends: ['male', 'female'], words: 'male-female' },
  ff: { ends: ['female', 'female'], words: 'female-female' },
  mm: { ends: ['male', 'male'], words: 'male-male' },
};

/** Across flats: M3 5.5 mm is the European pattern (Asian brass has 5.0); M2.5 and M4 as commonly sold. */
const ACROSS_FLATS_MM = { 'M2.5': 5, M3: 5.5, M4: 7 } as const;
const ROUND_MM = { 'M2.5': 5, M3: 6, M4: 8 } as const;
type SpacerThread = keyof typeof ACROSS_FLATS_MM;
const SPACER_THREADS: readonly SpacerThread[] = ['M2.5', 'M3', 'M4'];

interface Choice {
  readonly thread: SpacerThread;
  readonly sex: keyof typeof ENDS;
  readonly bodyMm: number;
  readonly material: 'brass' | 'nylon';
}

/** Depth of thread of a female end. A short male-female body is threaded down to its stud. */
function threadDepth(sex: keyof typeof ENDS, bodyMm: number): number {
  if (sex === 'mm') return 0;
  return bodyMm <= THROUGH_UP_TO_MM ? bodyMm : BLIND_DEPTH_MM;
}

function hexagon({ thread, sex, bodyMm, material }: Choice): Spacer {
  return {
    kind: 'spacer',
    id: `${thread.toLowerCase()}-${sex}-${bodyMm}-${material}`,
    label: `${thread} x ${bodyMm} mm hexagon spacer, ${ENDS[sex].words}, ${material}`,
    material: materials[material === 'brass' ? 'free-cutting-brass' : material],
    thread,
    ends: ENDS[sex].ends,
    bodyMm,
    studMm: sex === 'ff' ? 0 : STUD_MM,
    threadDepthMm: threadDepth(sex, bodyMm),
    through: sex === 'ff' && bodyMm <= THROUGH_UP_TO_MM,
    acrossMm: ACROSS_FLATS_MM[thread],
    section: 'hexagon',
    source: 'trade pattern without a standard; 5.5 mm across flats at M3 seen, thread depth and stud from memory',
    certainty: 'memory',
  };
}

function plain(thread: SpacerThread, bodyMm: number, material: MaterialName): Spacer {
  return {
    kind: 'spacer',
    id: `plain-${thread.toLowerCase()}-${bodyMm}-${material}`,
    label: `${thread} x ${bodyMm} mm plain round spacer, ${ROUND_MM[thread]} mm outside, ${material}`,
    material: materials[material === 'brass' ? 'free-cutting-brass' : material],
    thread,
    ends: ['plain', 'plain'],
    bodyMm,
    studMm: 0,
    threadDepthMm: 0,
    through: false,
    acrossMm: ROUND_MM[thread],
    section: 'round',
    source: 'trade pattern without a standard; bore clears the thread',
    certainty: 'memory',
  };
}

/** Bore in mm of a plain spacer: the fine clearance hole of its thread (ISO 273). */
export function plainBoreMm(thread: Thread): number {
  return clearanceHoleMm(thread, 'fine');
}

const MATERIALS = ['brass', 'nylon'] as const;
const SEXES = ['mf', 'ff', 'mm'] as const;

export const spacers: readonly Spacer[] = SPACER_THREADS.flatMap((thread) =>
  MATERIALS.flatMap((material) => [
    ...SEXES.flatMap((sex) => LENGTHS_MM.map((bodyMm) => hexagon({ thread, sex, bodyMm, material }))),
    ...PLAIN_LENGTHS_MM.map((bodyMm) => plain(thread, bodyMm, material)),
  ]),
);
