import type { Design, Finding } from '@sheetwave/design';
import { minimumReflectorMargin } from '@sheetwave/rf';
import type { Element } from './assembly.ts';
import { errorFinding, mm } from './finding.ts';
import { shapeExtent } from './lattice.ts';
import type { Point } from './outline.ts';

export interface ReflectorSize {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Least margin beyond the outermost driven patch edge that the rule asks for. */
  readonly marginMm: number;
  readonly rule: string;
}

/** Gap under the driven patch: its spacer, or the dielectric it is etched on. */
function drivenGapMm(design: Design): number {
  const [driven] = design.layers;
  if (driven?.spacer?.kind === 'stock') return driven.spacer.spacer.bodyMm;
  if (driven?.spacer?.kind === 'printed') return driven.spacer.heightMm;
  return design.reflector.material.kind === 'board' ? design.reflector.material.laminate.thicknessMm : 0;
}

/**
 * The smallest reflector for an array: the outermost driven patch edges (and the harness) plus a margin on every side.
 * The margin is the larger of the design's edge margin and the electrical minimum, a quarter wavelength at the low
 * band edge or six gaps (see `minimumReflectorMargin` in rf for the sources); sizes round up to whole millimetres.
 */
export function minimumReflector(
  design: Design,
  elements: readonly Element[],
  harnessPoints: readonly Point[],
): ReflectorSize {
  const margin = minimumReflectorMargin({ lowHz: design.band.lowHz, gapM: drivenGapMm(design) / 1000 });
  const electricalMm = margin.marginM * 1000;
  const wantedMm = design.reflector.edgeMarginMm ?? 0;
  const marginMm = Math.max(electricalMm, wantedMm);
  const reach = arrayReach(design, elements);
  const harness = pointReach(harnessPoints);
  // The harness needs no electrical margin, only sheet under and around it: three gaps keep its fringing field over metal.
  const aroundHarness = 3 * drivenGapMm(design);
  const halfWidth = Math.max(reach.x + marginMm, harness.x + aroundHarness);
  const halfHeight = Math.max(reach.y + marginMm, harness.y + aroundHarness);
  return {
    widthMm: roundUp(2 * halfWidth),
    heightMm: roundUp(2 * halfHeight),
    marginMm,
    rule: wording(margin.decidedBy, electricalMm, wantedMm),
  };
}

/** Largest side that a design may give; nothing in a workshop is larger. */
const MOST_MM = 5000;

/** What only shows once the size of the reflector is known: it is too large, or too small for its corners. */
export function sizeErrors({ reflector }: Design, size: Pick<ReflectorSize, 'widthMm' | 'heightMm'>): Finding[] {
  const value = `${mm(size.widthMm)} x ${mm(size.heightMm)}`;
  if (Math.max(size.widthMm, size.heightMm) > MOST_MM)
    return [
      errorFinding('out-of-range', 'reflector.size', {
        value,
        allowed: `is larger than ${mm(MOST_MM)}`,
        remedy: 'reduce the pitch of the lattice, the number of elements or the edge margin',
      }),
    ];
  const most = Math.min(size.widthMm, size.heightMm) / 2;
  if (reflector.cornerRadiusMm <= most) return [];
  return [
    errorFinding('out-of-range', 'reflector.corner_radius', {
      value: mm(reflector.cornerRadiusMm),
      allowed: `is more than half the shorter side of the reflector, ${value}`,
      remedy: `give at most ${mm(most)}`,
    }),
  ];
}

function wording(decidedBy: 'quarter-wave' | 'six-gaps', electricalMm: number, wantedMm: number): string {
  if (wantedMm > electricalMm)
    return `driven patches plus the edge margin of ${mm(wantedMm)} given in the design on every side`;
  const reason =
    decidedBy === 'six-gaps' ? 'six times the gap under the driven patch' : 'a quarter wavelength at the low band edge';
  return `driven patches plus ${mm(electricalMm)} on every side (${reason})`;
}

/** Largest distance of a driven patch edge from the array's centre lines. */
function arrayReach(design: Design, elements: readonly Element[]): Point {
  const [driven] = design.layers;
  if (!driven) throw new Error('a design has at least one layer');
  const extent = shapeExtent(driven.shape, design.lattice.orientation);
  const centres = pointReach(elements.map((element) => element.centre));
  return { x: centres.x + extent.widthMm / 2, y: centres.y + extent.heightMm / 2 };
}

function pointReach(points: readonly Point[]): Point {
  return {
    x: points.reduce((most, point) => Math.max(most, Math.abs(point.x)), 0),
    y: points.reduce((most, point) => Math.max(most, Math.abs(point.y)), 0),
  };
}

/** Up to the next whole millimetre; a millionth of slack so that 62.0000001 stays 62. */
function roundUp(value: number): number {
  return Math.ceil(value - 1e-6);
}
