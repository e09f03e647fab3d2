import type { Finding } from '@sheetwave/design';
import { errorFinding, mm } from '../finding.ts';
import type { Hole, Point } from '../outline.ts';
import type { AddedHoles } from './clamp-holes.ts';
import { type FreeFace, freeFace, keptOff, type Room } from './free-face.ts';
import type { FaceLayout, Obstacle } from './obstacles.ts';

const STEP_MM = 1;
/** Radius of the nut of a gland over the diameter of its hole: 19 mm across corners on 12.5 mm (common practice, no source). */
const GLAND_NUT = 0.76;

/**
 * Drain and gland holes of a box whose back or lid is the reflector. A box of its own has them in its own wall: then a note says so.
 * `taken` are holes that were added before.
 */
export function boxHoles(layout: FaceLayout, taken: readonly Hole[]): AddedHoles {
  const { box } = layout.design;
  if (!box || (box.drainMm === undefined && box.glandMm === undefined)) return { holes: [], findings: [] };
  if (box.partOf === undefined) return { holes: [], findings: [ownBoxNote(box.drainMm, box.glandMm)] };
  const drains = box.drainMm === undefined ? [] : drainPlaces(layout, { drainMm: box.drainMm, taken });
  const drainHoles = drains.flatMap(({ place }) =>
    place === undefined ? [] : [hole('drain', place, box.drainMm ?? 0)],
  );
  const gland = box.glandMm === undefined ? undefined : glandPlace(layout, box.glandMm, [...taken, ...drainHoles]);
  const glandHoles = gland === undefined || box.glandMm === undefined ? [] : [hole('gland', gland, box.glandMm)];
  return {
    holes: [...drainHoles, ...glandHoles],
    findings: [
      ...drains.filter(({ place }) => place === undefined).map(({ edge }) => noDrain(edge, box.drainMm ?? 0)),
      ...(box.glandMm !== undefined && gland === undefined ? [noGland(box.glandMm)] : []),
    ],
  };
}

const hole = (purpose: Hole['purpose'], centre: Point, diameterMm: number): Hole => ({
  purpose,
  centre,
  diameterMm,
  plated: false,
});

/**
 * The lowest point inside the wall as hung, and as turned by a quarter clockwise seen from in front (the right edge is then the lowest):
 * IP65 practice, a hole of 3 to 5 mm at the lowest point in both polarisations (memory).
 */
function drainPlaces(
  layout: FaceLayout,
  { drainMm, taken }: { readonly drainMm: number; readonly taken: readonly Hole[] },
): { edge: 'lower' | 'right-hand'; place: Point | undefined }[] {
  const wall = layout.design.box?.wallMm ?? 0;
  const face = freeFace(layout, taken.map(asObstacle));
  const web = layout.design.reflector.process.leastWebMm;
  const room = { radiusMm: drainMm / 2, edgeMm: Math.max(wall, web) + drainMm / 2 };
  const down = (off: number): Point => ({ x: off, y: -layout.heightMm / 2 + keptOff(layout, 'bottom') + room.edgeMm });
  const right = (off: number): Point => ({ x: layout.widthMm / 2 - keptOff(layout, 'right') - room.edgeMm, y: off });
  return [
    { edge: 'lower', place: firstFree(down, { face, room, reachMm: layout.widthMm / 2 }) },
    { edge: 'right-hand', place: firstFree(right, { face, room, reachMm: layout.heightMm / 2 }) },
  ];
}

/** From the middle of the edge to both sides in turn. */
function firstFree(
  place: (off: number) => Point,
  where: { readonly face: FreeFace; readonly room: Room; readonly reachMm: number },
): Point | undefined {
  for (let off = 0; off <= where.reachMm; off += STEP_MM) {
    for (const at of off === 0 ? [place(0)] : [place(-off), place(off)])
      if (where.face.blockers(at, where.room).length === 0) return at;
  }
  return undefined;
}

/** Beside the coax, below it where there is room: rings around it, each from straight down to both sides. */
function glandPlace(layout: FaceLayout, glandMm: number, taken: readonly Hole[]): Point | undefined {
  const face = freeFace(layout, taken.map(asObstacle));
  const radiusMm = GLAND_NUT * glandMm;
  const room = { radiusMm, edgeMm: (layout.design.box?.wallMm ?? 0) + radiusMm };
  const farthest = Math.hypot(layout.widthMm, layout.heightMm);
  for (let ring = Math.ceil(radiusMm); ring < farthest; ring += STEP_MM) {
    for (let turn = 0; turn <= 180; turn += 10) {
      for (const degrees of turn === 0 || turn === 180 ? [turn] : [turn, -turn]) {
        const at = around(layout.coaxPoint, ring, degrees);
        if (face.blockers(at, room).length === 0) return at;
      }
    }
  }
  return undefined;
}

/** `degrees` from straight down; on a grid of a tenth of a millimetre, which a drill can hold. */
function around(centre: Point, ring: number, degrees: number): Point {
  const angle = ((degrees - 90) * Math.PI) / 180;
  const tenth = (value: number): number => Math.round(value * 10) / 10 + 0;
  return { x: tenth(centre.x + ring * Math.cos(angle)), y: tenth(centre.y + ring * Math.sin(angle)) };
}

const asObstacle = ({ purpose, centre, diameterMm }: Hole): Obstacle => ({
  what: `the ${purpose} hole`,
  kind: 'disc',
  centre,
  radiusMm: purpose === 'clamp' ? diameterMm : diameterMm / 2,
});

function ownBoxNote(drainMm: number | undefined, glandMm: number | undefined): Finding {
  const wanted = [
    ...(drainMm === undefined ? [] : [`two drain holes of ${mm(drainMm)}`]),
    ...(glandMm === undefined ? [] : [`a hole of ${mm(glandMm)} for the gland`]),
  ];
  return {
    code: 'holes-in-the-box',
    severity: 'note',
    path: 'box',
    value: wanted.join(' and '),
    allowed: 'belong into the wall of the box, which is no part of this pack',
    remedy:
      'drill the box at its lowest point, as hung and turned by a quarter, or write part_of = "reflector" when the reflector is its back or lid',
  };
}

function noDrain(edge: string, drainMm: number): Finding {
  return errorFinding('drain-does-not-fit', 'box.drain', {
    value: mm(drainMm),
    allowed: `finds no free place along the ${edge} edge`,
    remedy: 'enlarge the reflector, use a smaller hole, or correct box.wall',
  });
}

function noGland(glandMm: number): Finding {
  return errorFinding('gland-does-not-fit', 'box.gland', {
    value: mm(glandMm),
    allowed: 'finds no free place on the reflector',
    remedy: 'enlarge the reflector, use a smaller gland, or put it into the wall of the box',
  });
}
