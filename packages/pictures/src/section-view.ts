import { type OrdinateRow, ordinateRow, plain } from '@sheetwave/drawings';
import { type Assembly, type Bounds, reflectorUndersideMm, shapeExtent } from '@sheetwave/geometry';
import { type PlacedCallout, placeCallouts } from './callouts.ts';
import { nearestToCoax } from './nearest-to-coax.ts';
import { inPlane, lengthDirection, type SectionPlane } from './section-plane.ts';
import { calloutsOf } from './section-words.ts';
import { type Piece, piecesOf } from './tiers.ts';

export const DRAWN_WIDTH = 130;
const LARGEST_SCALE = 5;
/** Cable drawn behind the reflector, mm. */
export const STUMP_MM = 6;

/** One cut and where its origin lies on the page. */
export interface Panel {
  readonly plane: SectionPlane;
  readonly shift: number;
  readonly pieces: readonly Piece[];
}

export interface Section {
  readonly assembly: Assembly;
  readonly scale: number;
  readonly stack: Panel;
  /** The coax entry, when the cut through the stack misses it. */
  readonly entry: Panel | undefined;
  readonly heights: OrdinateRow;
  readonly callouts: readonly PlacedCallout[];
  readonly extent: Bounds;
}

export function sectionOf(assembly: Assembly, drawnWidthMm: number): Section {
  const index = nearestToCoax(assembly);
  const plane = stackPlane(assembly, index);
  const pieces = piecesOf(assembly);
  const own = pieces.filter(({ placement }) => placement.element === undefined || placement.element === index);
  const entryPlane = hasCoax(assembly, plane) ? undefined : coaxPlane(assembly, plane);
  const entryWidth = entryPlane === undefined ? 0 : entryPlane.left + entryPlane.right + 4;
  const scale = Math.min(LARGEST_SCALE, drawnWidthMm / (plane.left + plane.right + entryWidth));
  const entry = entryPlane && {
    plane: entryPlane,
    shift: -(plane.left + 4 + entryPlane.right) * scale,
    pieces: pieces.filter(({ placement }) => placement.element === undefined),
  };
  const stack = { plane, shift: 0, pieces: own };
  const left = entry === undefined ? -plane.left * scale : entry.shift - entry.plane.left * scale;
  const heights = ordinateRow({
    axis: 'y',
    places: levelsOf(assembly).map((z) => z * scale),
    datum: 0,
    edge: left,
    sizeMm: 2.8,
    scale,
    words: (valueMm) => heightWords(assembly, valueMm),
  });
  const right = plane.right * scale;
  const callouts = placeCallouts(calloutsOf(assembly, { plane, scale }), right + 14);
  const top = Math.max(...assembly.layerHeights.map((height) => height.bodyTopMm)) + 4;
  const low = (reflectorUndersideMm(assembly.design) - STUMP_MM) * scale;
  const extent = { minX: left, maxX: right, minY: low, maxY: top * scale };
  return { assembly, scale, stack, entry, heights, callouts, extent };
}

function stackPlane(assembly: Assembly, index: number): SectionPlane {
  const element = assembly.elements[index];
  if (element === undefined) throw new Error('an antenna has at least one element');
  const { orientation } = assembly.design.lattice;
  const along = lengthDirection(orientation === 'vertical' ? 0 : -90);
  const lengths = assembly.design.layers.map(({ shape }) => {
    const extent = shapeExtent(shape, 'vertical');
    return extent.heightMm;
  });
  const half = Math.max(...lengths) * 0.5 * 1.3 + 3;
  const plane = { origin: element.centre, along, left: half, right: half };
  const coax = inPlane(plane, assembly.coaxPoint);
  const near = Math.abs(coax.off) < 1e-3 && Math.abs(coax.s) < 2 * half;
  if (!near) return plane;
  return { ...plane, left: Math.max(half, 6 - coax.s), right: Math.max(half, coax.s + 6) };
}

export function hasCoax(assembly: Assembly, plane: SectionPlane): boolean {
  const { s, off } = inPlane(plane, assembly.coaxPoint);
  return Math.abs(off) < 1e-3 && s > -plane.left && s < plane.right;
}

const coaxPlane = (assembly: Assembly, like: SectionPlane): SectionPlane => ({
  origin: assembly.coaxPoint,
  along: like.along,
  left: 7,
  right: 7,
});

export function levelsOf(assembly: Assembly): readonly number[] {
  const { harness } = assembly.design;
  const line = harness.kind === 'rod' || harness.kind === 'strip' ? [harness.heightMm] : [];
  const layers = assembly.layerHeights.flatMap((height) => [height.undersideMm, height.topMm]);
  return [reflectorUndersideMm(assembly.design), 0, ...line, ...layers];
}

/** The line of the harness is named, because no sheet shows what its height belongs to. */
function heightWords(assembly: Assembly, valueMm: number): string {
  const { harness } = assembly.design;
  const number = plain(valueMm, 3);
  if (!('heightMm' in harness) || Math.abs(harness.heightMm - valueMm) > 0.002) return number;
  return harness.kind === 'rod' ? `rod axis ${number}` : `strip ${number}`;
}
