import type { Assembly, BoughtPart, Part, Placement } from '../assembly.ts';
import type { Measurement } from '../measure.ts';
import { placePoint } from '../transform.ts';
import { bodyThicknessMm } from './thickness.ts';

/** Heights of the placed sheets and boards over the reflector's front face, and the height over all. */
export function stackMeasures(assembly: Assembly): Measurement[] {
  const parts = new Map(assembly.parts.map((part) => [part.id, part]));
  const placed = assembly.placements.flatMap((placement) => {
    const part = parts.get(placement.part);
    return part === undefined ? [] : [{ part, placement }];
  });
  const heights = new Map<string, Measurement>();
  const count = (part: string, what: string, valueMm: number): void => {
    const key = `${part} ${what} ${valueMm}`;
    heights.set(key, { part, what, valueMm, count: (heights.get(key)?.count ?? 0) + 1 });
  };
  for (const { part, placement } of placed) {
    if ((part.form !== 'plate' && part.form !== 'board') || part.role === 'reflector') continue;
    count(part.id, 'underside over reflector', placement.at.z);
    count(part.id, 'top over reflector', placement.at.z + bodyThicknessMm(part));
  }
  const extents = placed.flatMap(({ part, placement }) => verticalExtent(part, placement));
  const reach = {
    low: Math.min(...[0, ...extents.map((e) => e[0])]),
    high: extents.reduce((m, e) => Math.max(m, e[1]), 0),
  };
  const overall: Measurement = {
    part: 'antenna',
    what: 'height over all without cable',
    valueMm: reach.high - reach.low,
    count: 1,
  };
  return [...heights.values(), overall];
}

/** Lowest and highest z of a placed piece; nothing for tubes, which lie along rods, and for the cable and its connector. */
function verticalExtent(part: Part, placement: Placement): (readonly [number, number])[] {
  const z = placement.at.z;
  switch (part.form) {
    case 'plate':
    case 'board':
      return [[z, z + bodyThicknessMm(part)]];
    case 'rod': {
      const corners = part.corners.map((corner) => placePoint(corner, placement).z);
      return [[Math.min(...corners), Math.max(...corners)]];
    }
    case 'printed-spacer':
      return [[z, z + part.heightMm]];
    case 'tube':
      return [];
    case 'bought':
      return boughtExtent(part, z);
  }
}

function boughtExtent({ item }: BoughtPart, z: number): (readonly [number, number])[] {
  switch (item.kind) {
    case 'spacer': {
      const [below, above] = item.ends.map((end) => (end === 'male' ? item.studMm : 0));
      return [[z - (below ?? 0), z + item.bodyMm + (above ?? 0)]];
    }
    case 'screw':
      return [[z, z + item.lengthMm + (item.head === 'countersunk' ? 0 : item.headHeightMm)]];
    case 'nut':
      return [[z, z + item.heightMm]];
    case 'washer':
      return [[z, z + item.thicknessMm]];
    case 'coax':
    case 'connector':
      return [];
  }
}
