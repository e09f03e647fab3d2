import type { Finding } from '@sheetwave/design';
import type { Assembly, Placement, Point3, RodPart } from '../assembly.ts';
import { errorFinding, mm } from '../finding.ts';
import { placePoint } from '../transform.ts';

/** Rods, tubes and strips that touch the reflector or the driven patch, and rods whose blank cannot be as long as said. */
export function harnessFindings(assembly: Assembly): Finding[] {
  const ceiling = assembly.layerHeights[0]?.undersideMm ?? Number.POSITIVE_INFINITY;
  const rods = assembly.parts.flatMap((part) => (part.form === 'rod' ? [part] : []));
  return [
    ...rods.flatMap((rod) => [...lengthFindings(rod), ...rodSpaceFindings(assembly, rod, ceiling)]),
    ...lineSpaceFindings(assembly, ceiling),
  ];
}

/** A bend only shortens the way round a corner: the blank is between the straight distance and the sum of the legs. */
function lengthFindings(rod: RodPart): Finding[] {
  const [first, last] = [rod.corners[0], rod.corners.at(-1)];
  if (first === undefined || last === undefined || rod.corners.length < 2)
    return [rodFinding('rod-length', rod.id, `${rod.corners.length} corners`, 'are fewer than 2')];
  const straight = distance(first, last);
  const legs = rod.corners.slice(1).reduce((sum, corner, i) => sum + distance(rod.corners[i] ?? corner, corner), 0);
  const length = rod.developedLengthMm;
  if (length >= straight - 1e-6 && length <= legs + 1e-6) return [];
  return [
    rodFinding(
      'rod-length',
      rod.id,
      mm(length),
      `is not between ${mm(straight)} (straight) and ${mm(legs)} (its legs)`,
    ),
  ];
}

function rodSpaceFindings(assembly: Assembly, rod: RodPart, ceilingMm: number): Finding[] {
  const placement = assembly.placements.find((p) => p.part === rod.id);
  if (placement === undefined) return [];
  const radius = rod.rod.diameterMm / 2;
  const heights = lyingHeights(rod, placement);
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  return heights.length === 0 ? [] : spaceFindings(rod.id, { lowMm: low - radius, highMm: high + radius, ceilingMm });
}

/** Heights of the axis where the rod lies; legs that rise straight up are probes and may pass through the patch. */
function lyingHeights(rod: RodPart, placement: Placement): number[] {
  const corners = rod.corners.map((corner) => placePoint(corner, placement));
  return corners.slice(1).flatMap((to, i) => {
    const from = corners[i];
    if (from === undefined || Math.hypot(to.x - from.x, to.y - from.y) <= 1e-6) return [];
    return [from.z, to.z];
  });
}

/** What the design lays at the height of the harness: tubes about the rod axis, or the strip. */
function lineSpaceFindings({ design: { harness } }: Assembly, ceilingMm: number): Finding[] {
  if (harness.kind === 'strip') {
    const highMm = harness.heightMm + harness.sheet.thicknessMm;
    return spaceFindings('harness-strip', { lowMm: harness.heightMm, highMm, ceilingMm });
  }
  if (harness.kind !== 'rod') return [];
  return harness.levels.flatMap(({ section }, level) => {
    if (section === undefined) return [];
    const radius = section.tube.outerMm / 2;
    const space = { lowMm: harness.heightMm - radius, highMm: harness.heightMm + radius, ceilingMm };
    return spaceFindings(`tube-level-${level}`, space);
  });
}

function spaceFindings(part: string, space: { lowMm: number; highMm: number; ceilingMm: number }): Finding[] {
  const { lowMm, highMm, ceilingMm } = space;
  return [
    ...(lowMm > 0
      ? []
      : [
          rodFinding(
            'harness-touches-reflector',
            part,
            `its lowest line at ${mm(lowMm)}`,
            'is not above the reflector at 0 mm',
          ),
        ]),
    ...(highMm < ceilingMm
      ? []
      : [
          rodFinding(
            'harness-touches-patch',
            part,
            `its highest line at ${mm(highMm)}`,
            `is not below the driven patch at ${mm(ceilingMm)}`,
          ),
        ]),
  ];
}

function rodFinding(code: string, part: string, value: string, allowed: string): Finding {
  return errorFinding(code, `part ${part}`, {
    value,
    allowed,
    remedy:
      code === 'rod-length'
        ? 'report this: the blank would be cut wrong'
        : 'change harness.height, the rod or the first spacer',
  });
}

function distance(a: Point3, b: Point3): number {
  return Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}
