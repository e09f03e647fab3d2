import type { Assembly, BoughtPart, Part, Point3 } from '../assembly.ts';
import type { Point } from '../outline.ts';
import { legRadiusMm } from '../reflector/clamp-holes.ts';
import { acrossCornersMm } from '../reflector/obstacles.ts';
import { reflectorUndersideMm } from '../stack-heights.ts';

/** A round body that stands upright on the antenna, seen in plan. */
export interface Post {
  readonly part: string;
  readonly what: string;
  readonly at: Point3;
  /** Of the circle around it: the corners of a hexagon. */
  readonly radiusMm: number;
  /** What a spanner or driver needs around its axis; 0 where none goes. */
  readonly toolMm: number;
  readonly lowMm: number;
  readonly highMm: number;
  readonly metal: boolean;
}

/** A straight stretch of the harness, seen in plan. */
export interface Line {
  readonly part: string;
  readonly what: string;
  readonly from: Point;
  readonly to: Point;
  readonly radiusMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

/** A socket is about 1.6 times as wide as the nut it turns (common practice, no source; ISO 2725-1 allows 1.5 to 1.7 at M3 to M8, memory). */
const SOCKET = 0.8;
/** A screwdriver stays inside the head; its shank and the fingers want half a millimetre. */
const DRIVER_MM = 0.5;

/** Every spacer, nut and screw head of the stacks. */
export function stackPosts(assembly: Assembly): Post[] {
  const parts = new Map(assembly.parts.map((part) => [part.id, part]));
  return assembly.placements.flatMap((placement) => {
    const part = parts.get(placement.part);
    const size = part && sizeOf(assembly, part, placement.at.z);
    return size ? [{ part: placement.part, at: placement.at, ...size }] : [];
  });
}

type Size = Omit<Post, 'part' | 'at'>;

function sizeOf(assembly: Assembly, part: Part, z: number): Size | undefined {
  if (part.form === 'printed-spacer')
    return {
      what: part.name,
      radiusMm: part.outerMm / 2,
      toolMm: 0,
      lowMm: z,
      highMm: z + part.heightMm,
      metal: false,
    };
  return part.form === 'bought' ? boughtSize(assembly, part, z) : undefined;
}

function boughtSize(assembly: Assembly, { item }: BoughtPart, z: number): Size | undefined {
  switch (item.kind) {
    case 'spacer': {
      const radiusMm = (item.section === 'hexagon' ? acrossCornersMm(item.acrossMm) : item.acrossMm) / 2;
      const metal = item.material.conductivitySm > 0;
      return { what: `the ${item.id} spacer`, radiusMm, toolMm: 0, lowMm: z, highMm: z + item.bodyMm, metal };
    }
    case 'nut': {
      const sizes = { radiusMm: acrossCornersMm(item.acrossMm) / 2, toolMm: SOCKET * item.acrossMm };
      return {
        what: 'the nut of a stack',
        ...sizes,
        lowMm: z,
        highMm: z + item.heightMm,
        metal: item.material.conductivitySm > 0,
      };
    }
    case 'screw': {
      const behind = z < reflectorUndersideMm(assembly.design) - 1e-9;
      const lowMm = behind ? z : z + item.lengthMm;
      const radiusMm = item.headDiameterMm / 2;
      const sizes = { radiusMm, toolMm: radiusMm + DRIVER_MM, lowMm, highMm: lowMm + item.headHeightMm };
      return { what: 'the screw head of a stack', ...sizes, metal: item.material.conductivitySm > 0 };
    }
    default:
      return undefined;
  }
}

/** Screws through the reflector that are not part of a stack: mounting, clamp and flange. Their heads or nuts are on both sides. */
export function reflectorScrews(assembly: Assembly): Post[] {
  const { clamp } = assembly.design.reflector;
  const reflector = assembly.parts.find((part) => part.id === 'reflector');
  if (reflector?.form !== 'plate' && reflector?.form !== 'board') return [];
  return reflector.outline.holes.flatMap(({ purpose, centre, diameterMm: d }): Post[] => {
    if (purpose !== 'mounting' && purpose !== 'clamp' && purpose !== 'connector-flange') return [];
    const leg = purpose === 'clamp' && clamp;
    // Head as wide as two holes less a tenth, and two thirds of a hole high (ISO 7045: 9.5 and 3.7 mm at M5, hole 5.5 mm).
    const radiusMm = leg ? legRadiusMm(clamp) : 0.9 * d;
    const toolMm = leg ? SOCKET * clamp.acrossMm : 1.2 * d;
    const what = {
      mounting: 'a mounting screw',
      clamp: 'a leg of the pole clamp',
      'connector-flange': 'a screw of the connector flange',
    }[purpose];
    const highMm = leg ? 2 * d : 0.67 * d;
    return [
      { part: 'reflector', what, at: { ...centre, z: 0 }, radiusMm, toolMm, lowMm: -highMm, highMm, metal: true },
    ];
  });
}

/** The harness, run by run, and the probes that rise from it. */
export function harnessLines(assembly: Assembly): Line[] {
  const { harness } = assembly.design;
  if (harness.kind === 'none') return [];
  return assembly.harness.flatMap(({ arms, level }) =>
    arms.flat().map(({ from, to, sizeMm, role }): Line => {
      const heights = lineHeights(assembly, sizeMm);
      const part =
        harness.kind === 'rod'
          ? `${role === 'section' ? 'tube' : 'rod'}-level-${level}`
          : harness.kind === 'strip'
            ? 'harness-strip'
            : 'reflector';
      const words = {
        rod: role === 'section' ? 'a harness tube' : 'a harness rod',
        strip: 'the harness strip',
        microstrip: 'an etched line',
      };
      return { part, what: words[harness.kind], from, to, radiusMm: sizeMm / 2, ...heights };
    }),
  );
}

function lineHeights({ design }: Assembly, sizeMm: number): { lowMm: number; highMm: number } {
  const { harness, reflector } = design;
  if (harness.kind === 'rod') return { lowMm: harness.heightMm - sizeMm / 2, highMm: harness.heightMm + sizeMm / 2 };
  if (harness.kind === 'strip')
    return { lowMm: harness.heightMm, highMm: harness.heightMm + harness.sheet.thicknessMm };
  const board = reflector.material.kind === 'board' ? reflector.material.laminate : undefined;
  const top = (board?.thicknessMm ?? 0) + (board?.copperMm ?? 0);
  return { lowMm: board?.thicknessMm ?? 0, highMm: top + 1e-6 };
}

/** The pin or probe of every element, from the reflector up. */
export function probePosts(assembly: Assembly): Post[] {
  const { feed } = assembly.design;
  const height = assembly.layerHeights[0];
  if (feed.kind !== 'probe' || !height) return [];
  return assembly.elements.map(({ feedPoint }) => ({
    part: 'patch-driven',
    what: 'a probe',
    at: { ...feedPoint, z: height.undersideMm / 2 },
    radiusMm: feed.probeDiameterMm / 2,
    toolMm: 0,
    lowMm: 0,
    highMm: height.topMm,
    metal: true,
  }));
}

/** True when two bodies share a height. */
export const atOneHeight = (
  a: { readonly lowMm: number; readonly highMm: number },
  b: { readonly lowMm: number; readonly highMm: number },
): boolean => a.lowMm < b.highMm - 1e-9 && b.lowMm < a.highMm - 1e-9;
