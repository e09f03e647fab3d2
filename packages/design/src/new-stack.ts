import { formatFrequency, formatLength } from './quantity.ts';
import { stock } from './stock/catalogue.ts';
import type { Screw, Spacer } from './stock/types.ts';

/** One stack for a band, with everything that decides its match free for sizing. */
export interface NewStack {
  /** Edges of the band, low first. */
  readonly lowHz: number;
  readonly highHz: number;
  /** Largest standing wave ratio over it. */
  readonly vswr: number;
  /** From the edge of the driven patch to the pin, mm. */
  readonly fromEdgeMm: number;
  /** From the reflector outward: sizes, and the gap below each, mm. */
  readonly patches: readonly NewPatch[];
}

interface NewPatch {
  readonly lengthMm: number;
  readonly widthMm: number;
  readonly gapMm: number;
}

/** The parts of a new design file that depend on its band. */
export interface StackParts {
  readonly what: string;
  readonly band: readonly [low: string, high: string];
  readonly vswr: number;
  readonly patches: string;
  readonly fromEdge: string;
  readonly screw: string;
  readonly free: string;
}

const tenth = (mm: number): number => Math.round(10 * mm) / 10;
const length = (mm: number): string => `"${formatLength(tenth(mm))}"`;

const SHEET_MM = 0.5;
const REFLECTOR_MM = 1;
/** Nut, and a turn or two beyond it. */
const NUT_MM = 4;
/** From the edge to the middle of a solder hole of 1.2 mm, with the 2 mm between that cutting by hand wants. */
const LEAST_FROM_EDGE_MM = 2.7;

const nameOf = (index: number): string => (index === 0 ? 'driven' : `parasitic-${index}`);

interface Fixing {
  /** Of each patch. */
  readonly spacers: readonly Spacer[];
  readonly screw: Screw;
}

const nearest = (kind: RegExp, gapMm: number): Spacer => {
  const [first, ...others] = Object.values(stock.spacer).filter(({ id }) => kind.test(id));
  if (first === undefined) throw new RangeError('There are no such spacers in stock.');
  return others.reduce(
    (best, one) => (Math.abs(one.bodyMm - gapMm) < Math.abs(best.bodyMm - gapMm) ? one : best),
    first,
  );
};

const SCREWS = Object.values(stock.screw)
  .filter(({ id }) => /^m3-pan-\d+-brass$/.test(id))
  .sort((a, b) => a.lengthMm - b.lengthMm);

/**
 * Plain brass tubes and one long screw, which come in short lengths too; where no screw is long enough, spacers with studs. Brass in the
 * middle of a patch stands where the field is zero.
 */
function fixingOf(patches: readonly NewPatch[]): Fixing {
  const plain = patches.map(({ gapMm }) => nearest(/^plain-m3-\d+-brass$/, gapMm));
  const needed = REFLECTOR_MM + NUT_MM + plain.reduce((sum, { bodyMm }) => sum + bodyMm + SHEET_MM, 0);
  const through = SCREWS.find(({ lengthMm }) => lengthMm >= needed);
  if (through !== undefined) return { spacers: plain, screw: through };
  const short = SCREWS.find(({ lengthMm }) => lengthMm === SHORT_SCREW_MM);
  if (short === undefined) throw new RangeError('There is no short M3 screw in stock.');
  return { spacers: patches.map(({ gapMm }) => nearest(/^m3-mf-\d+-brass$/, gapMm)), screw: short };
}

const SHORT_SCREW_MM = 6;

function layerText(patch: NewPatch, index: number, spacer: Spacer): string {
  const notes =
    index === 0
      ? ['the first layer is the driven patch', 'the resonant size, along the electric field']
      : ['driven by the patch below it; widens the band', ''];
  const line = (text: string, note = '') => (note === '' ? text : `${text.padEnd(29)}# ${note}`);
  return [
    '[[layer]]',
    line(`name = "${nameOf(index)}"`, notes[0]),
    'shape = "rectangle"',
    line(`length = ${length(patch.lengthMm)}`, notes[1]),
    `width = ${length(patch.widthMm)}`,
    `sheet = "brass-0.5"`,
    `spacer = "${spacer.id}"`,
  ].join('\n');
}

const range = (path: string, mm: number, [from, to]: readonly [number, number], step = ''): string =>
  `${path} = { from = ${length(Math.max(LEAST_MM, from * mm))}, to = ${length(to * mm)}${step} }`;

/** No size of a design is smaller. */
const LEAST_MM = 0.5;
/** Ranges of sizing, as shares of the start. */
const RANGE = { length: [0.75, 1.3], width: [0.6, 1.4], gap: [0.7, 1.9], fromEdge: [0.3, 2.5] } as const;
const IN_TENTHS = ', step = "0.1 mm"';

function freeText({ patches, fromEdgeMm }: NewStack): string {
  const lines = patches.flatMap((patch, index) => {
    const path = (field: string) => `layer.${nameOf(index)}.${field}`;
    return [
      range(path('length'), patch.lengthMm, RANGE.length, IN_TENTHS),
      range(path('width'), patch.widthMm, RANGE.width, IN_TENTHS),
      `${range(path('spacer'), patch.gapMm, RANGE.gap)}   # out of stock`,
    ];
  });
  return ['[free]', ...lines, range('feed.from_edge', fromEdgeMm, RANGE.fromEdge, IN_TENTHS)].join('\n');
}

const COUNTS = [
  '',
  'a driven patch',
  'a driven patch and a parasitic patch',
  'a driven patch and two parasitic patches',
];

/** What a new design file says of a stack: patches of brass on spacers out of stock, and ranges for sizing around its start. */
export function stackParts(start: NewStack): StackParts {
  const { lowHz, highHz, vswr, patches } = start;
  const fromEdgeMm = Math.max(LEAST_FROM_EDGE_MM, start.fromEdgeMm);
  const { spacers, screw } = fixingOf(patches);
  return {
    what: COUNTS[patches.length] ?? `${patches.length} patches`,
    band: [formatFrequency(lowHz), formatFrequency(highHz)],
    vswr,
    patches: spacers.map((spacer, index) => layerText(patches[index] as NewPatch, index, spacer)).join('\n\n'),
    fromEdge: formatLength(tenth(fromEdgeMm)),
    screw: screw.id,
    free: freeText({ ...start, fromEdgeMm }),
  };
}
