import type { BoughtPart, Point } from '@sheetwave/geometry';
import type { Prism } from './axonometry.ts';
import { hexagon } from './hexagon.ts';
import { TONES, type Tones, tonesOf } from './palette.ts';

/** Upright bodies of one piece, from its lowest z = 0 upward, lowest first; `heightMm` is over all. */
export interface Solid {
  readonly prisms: readonly Prism[];
  readonly fromMm: number;
  readonly toMm: number;
}

const SIDES = 40;

export function disc(centre: Point, diameterMm: number): readonly Point[] {
  return Array.from({ length: SIDES }, (_, index) => ({
    x: centre.x + (diameterMm / 2) * Math.cos((2 * Math.PI * index) / SIDES),
    y: centre.y + (diameterMm / 2) * Math.sin((2 * Math.PI * index) / SIDES),
  }));
}

export function solid(prisms: readonly Prism[]): Solid {
  return {
    prisms,
    fromMm: Math.min(...prisms.map((prism) => prism.from)),
    toMm: Math.max(...prisms.map((prism) => prism.to)),
  };
}

/** Nominal diameter of a metric thread from its name, `M3`. */
function threadMm(thread: string): number {
  const diameter = Number(/^M(\d+(?:\.\d+)?)/.exec(thread)?.[1]);
  if (!(diameter > 0)) throw new Error(`the thread ${thread} has no diameter in its name`);
  return diameter;
}

interface Body {
  readonly centre: Point;
  readonly tones: Tones;
}

/** A cylinder or a tube between two heights. */
export function round(
  body: Body,
  size: { readonly outerMm: number; readonly boreMm?: number; readonly z: readonly [number, number] },
): Prism {
  const holes = size.boreMm === undefined ? [] : [disc(body.centre, size.boreMm)];
  return { outer: disc(body.centre, size.outerMm), holes, from: size.z[0], to: size.z[1], tones: body.tones };
}

/**
 * A bought piece as solids, or undefined for what is drawn in another way (cable). `headUp` says which way a screw looks.
 */
export function boughtSolid(
  part: BoughtPart,
  place: { readonly centre: Point; readonly z: number; readonly headUp: boolean },
): Solid | undefined {
  const { item } = part;
  const { centre, z } = place;
  switch (item.kind) {
    case 'spacer':
      return spacerSolid(item, { centre, tones: tonesOf(item.material.name) }, z);
    case 'screw':
      return screwSolid(item, { centre, tones: tonesOf(item.material.name) }, place);
    case 'nut': {
      const outer = hexagon(centre, item.acrossMm);
      const tones = tonesOf(item.material.name);
      return solid([{ outer, holes: [disc(centre, threadMm(item.thread))], from: z, to: z + item.heightMm, tones }]);
    }
    case 'washer':
      return solid([
        round(
          { centre, tones: tonesOf(item.material.name) },
          { outerMm: item.outerMm, boreMm: item.innerMm, z: [z, z + item.thicknessMm] },
        ),
      ]);
    case 'coax':
    case 'connector':
      return undefined;
  }
}

type Item<K extends BoughtPart['item']['kind']> = Extract<BoughtPart['item'], { kind: K }>;

function spacerSolid(item: Item<'spacer'>, body: Body, z: number): Solid {
  const [below, above] = item.ends;
  const thread = threadMm(item.thread);
  const stud = { ...body, tones: TONES.steel };
  const top = z + item.bodyMm;
  const bore = above === 'male' ? [] : [disc(body.centre, thread)];
  const outer = item.section === 'hexagon' ? hexagon(body.centre, item.acrossMm) : disc(body.centre, item.acrossMm);
  return solid([
    ...(below === 'male' ? [round({ ...stud, tones: body.tones }, { outerMm: thread, z: [z - item.studMm, z] })] : []),
    { outer, holes: bore, from: z, to: top, tones: body.tones },
    ...(above === 'male'
      ? [round({ ...stud, tones: body.tones }, { outerMm: thread, z: [top, top + item.studMm] })]
      : []),
  ]);
}

function screwSolid(item: Item<'screw'>, body: Body, place: { readonly z: number; readonly headUp: boolean }): Solid {
  const { z } = place;
  const over = item.head === 'countersunk' ? item.lengthMm - item.headHeightMm : item.lengthMm;
  const shank = { outerMm: threadMm(item.thread) };
  const head = { outerMm: item.headDiameterMm };
  const socket = item.head === 'pan' ? {} : { boreMm: item.headDiameterMm * 0.4 };
  return place.headUp
    ? solid([
        round(body, { ...shank, z: [z, z + over] }),
        round(body, { ...head, ...socket, z: [z + over, z + over + item.headHeightMm] }),
      ])
    : solid([
        round(body, { ...head, z: [z, z + item.headHeightMm] }),
        round(body, { ...shank, z: [z + item.headHeightMm, z + item.headHeightMm + over] }),
      ]);
}
