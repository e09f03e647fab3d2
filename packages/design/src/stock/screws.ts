import { type MaterialName, materials } from './materials.ts';
import type { Thread } from './threads.ts';
import type { Certainty, Screw } from './types.ts';

type Head = Screw['head'];
const LENGTHS_MM = [4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60];

interface HeadRow {
  readonly diameterMm: number;
  readonly heightMm: number;
  readonly certainty: Certainty;
}
interface HeadFamily {
  readonly standard: string;
  readonly label: string;
  readonly sizes: Partial<Readonly<Record<Thread, HeadRow>>>;
  readonly metals: readonly ('brass' | 'steel' | 'stainless' | 'nylon')[];
}

const sure = (diameterMm: number, heightMm: number): HeadRow => ({ diameterMm, heightMm, certainty: 'confirmed' });
const recalled = (diameterMm: number, heightMm: number): HeadRow => ({ diameterMm, heightMm, certainty: 'memory' });

/** Largest head diameter dk and height k by standard, mm. */
const FAMILIES: Readonly<Record<Head, HeadFamily>> = {
  pan: {
    standard: 'ISO 7045 head dimensions',
    label: 'pan head',
    sizes: {
      M2: recalled(4, 1.6),
      'M2.5': recalled(5, 2.1),
      M3: recalled(5.6, 2.4),
      M4: sure(8, 3.1),
      M5: recalled(9.5, 3.7),
      M6: recalled(12, 4.6),
    },
    metals: ['brass', 'steel', 'stainless', 'nylon'],
  },
  socket: {
    standard: 'ISO 4762 head dimensions',
    label: 'socket head',
    sizes: {
      M2: sure(3.8, 2),
      'M2.5': sure(4.5, 2.5),
      M3: sure(5.5, 3),
      M4: sure(7, 4),
      M5: sure(8.5, 5),
      M6: recalled(10, 6),
    },
    metals: ['steel', 'stainless'],
  },
  button: {
    standard: 'ISO 7380-1 head dimensions',
    label: 'button head',
    sizes: { M3: sure(5.7, 1.65), M4: sure(7.6, 2.2), M5: sure(9.5, 2.75), M6: sure(10.5, 3.3) },
    metals: ['steel', 'stainless'],
  },
  countersunk: {
    standard: 'ISO 7046-1 head dimensions',
    label: 'countersunk head',
    sizes: {
      M2: recalled(3.8, 1.2),
      'M2.5': recalled(4.7, 1.5),
      M3: recalled(5.5, 1.65),
      M4: recalled(8.4, 2.7),
      M5: recalled(9.3, 2.7),
      M6: recalled(11.3, 3.3),
    },
    metals: ['brass', 'steel', 'stainless', 'nylon'],
  },
};

const MATERIAL_OF: Readonly<Record<HeadFamily['metals'][number], MaterialName>> = {
  brass: 'free-cutting-brass',
  steel: 'steel',
  stainless: 'stainless',
  nylon: 'nylon',
};

function familyScrews(head: Head, family: HeadFamily): Screw[] {
  return Object.entries(family.sizes).flatMap(([thread, size]) =>
    family.metals.flatMap((metal) =>
      LENGTHS_MM.map(
        (lengthMm): Screw => ({
          kind: 'screw',
          id: `${thread.toLowerCase()}-${head}-${lengthMm}-${metal}`,
          label: `${thread} x ${lengthMm} mm ${family.label} screw, ${metal}`,
          material: materials[MATERIAL_OF[metal]],
          thread,
          head,
          lengthMm,
          headDiameterMm: size.diameterMm,
          headHeightMm: size.heightMm,
          source: family.standard,
          certainty: size.certainty,
        }),
      ),
    ),
  );
}

const HEADS: readonly Head[] = ['pan', 'button', 'socket', 'countersunk'];

export const screws: readonly Screw[] = HEADS.flatMap((head) => familyScrews(head, FAMILIES[head]));
