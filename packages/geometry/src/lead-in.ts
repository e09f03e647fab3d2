import { contains, distanceToContour, pieceLength, signedArea } from './contour-measure.ts';
import { contourCrossings } from './crossings.ts';
import type { Contour, Point } from './outline.ts';
import { contourPieces, type Piece } from './pieces.ts';
import type { ToolPath } from './tool-path.ts';
import { travelAt } from './turn-at.ts';

/** A quarter of a circle from where the jet pierces to where it meets the contour, in the direction of travel. */
export interface LeadIn {
  readonly from: Point;
  readonly to: Point;
  readonly centre: Point;
  readonly sense: 'ccw' | 'cw';
}

export interface LeadIns {
  /** Holes first, then cut-outs, the outside last. */
  readonly leads: readonly LeadIn[];
  /** The one of the outside, if it has room. */
  readonly outside: LeadIn | undefined;
  /** Contours beside which even a quarter of the length has no room. */
  readonly without: number;
}

/** Where the place is narrow the run-in is shortened to these parts of its length. */
const SHORTENED = [1, 0.5, 0.25];

/**
 * A run-in for every contour of a tool path, in the metal that is thrown away: inside holes and cut-outs, outside the part. It starts at the
 * middle of the longest side that has room, touches its own contour only where it ends, and no other at all. `lengthMm` is its radius;
 * throws when that is not above 0.
 */
export function leadIns(path: Pick<ToolPath, 'outer' | 'cutouts' | 'holes'>, lengthMm: number): LeadIns {
  if (!(lengthMm > 0)) throw new Error(`lead-in: a length of ${lengthMm} mm`);
  const all = [...path.holes, ...path.cutouts, path.outer];
  const found = all.map((contour) =>
    leadOf(contour, { lengthMm, waste: contour === path.outer ? 'outside' : 'inside', all }),
  );
  const leads = found.filter((lead) => lead !== undefined);
  return { leads, outside: found.at(-1), without: found.length - leads.length };
}

interface Around {
  readonly lengthMm: number;
  readonly waste: 'inside' | 'outside';
  readonly all: readonly Contour[];
}

function leadOf(contour: Contour, around: Around): LeadIn | undefined {
  const byLength = [...contourPieces(contour)].sort((a, b) => pieceLength(b) - pieceLength(a));
  const others = around.all.filter((other) => other !== contour);
  const wasteIsLeft = signedArea(contour) > 0 === (around.waste === 'inside');
  for (const part of SHORTENED) {
    for (const piece of byLength.slice(0, 8)) {
      const lead = leadTo(piece, { radiusMm: part * around.lengthMm, wasteIsLeft });
      if (hasRoom(lead, { contour, others, waste: around.waste })) return lead;
    }
  }
  return undefined;
}

function leadTo(piece: Piece, how: { readonly radiusMm: number; readonly wasteIsLeft: boolean }): LeadIn {
  const to = middleOf(piece);
  const travel = travelAt(piece, to);
  const length = Math.hypot(travel.x, travel.y);
  const [x, y] = [(travel.x / length) * how.radiusMm, (travel.y / length) * how.radiusMm];
  const side = how.wasteIsLeft ? 1 : -1;
  const centre = { x: to.x - side * y, y: to.y + side * x };
  return { from: { x: centre.x - x, y: centre.y - y }, to, centre, sense: how.wasteIsLeft ? 'ccw' : 'cw' };
}

function middleOf(piece: Piece): Point {
  if (piece.kind === 'line') return { x: (piece.from.x + piece.to.x) / 2, y: (piece.from.y + piece.to.y) / 2 };
  const angle = piece.startRad + piece.sweepRad / 2;
  return {
    x: piece.centre.x + piece.radiusMm * Math.cos(angle),
    y: piece.centre.y + piece.radiusMm * Math.sin(angle),
  };
}

/** Away from every contour by at least half of what it would be from a straight edge, in the waste, and crossing nothing. */
function hasRoom(
  lead: LeadIn,
  beside: { readonly contour: Contour; readonly others: readonly Contour[]; readonly waste: 'inside' | 'outside' },
): boolean {
  const radius = Math.hypot(lead.to.x - lead.centre.x, lead.to.y - lead.centre.y);
  const points = [90, 75, 60, 45, 30, 15].map((before) => ({
    point: pointBefore(lead, before),
    leastMm: (radius * (1 - Math.cos((before * Math.PI) / 180))) / 2,
  }));
  const inWaste = points.every(({ point }) => contains(beside.contour, point) === (beside.waste === 'inside'));
  const apart = points.every(({ point, leastMm }) =>
    [beside.contour, ...beside.others].every((contour) => distanceToContour(contour, point) >= leastMm),
  );
  if (!inWaste || !apart) return false;
  const almost = thereAndBack(lead);
  return [beside.contour, ...beside.others].every((contour) => contourCrossings(almost, contour).length === 0);
}

/** A point of the run-in, this many degrees before its end. */
function pointBefore(lead: LeadIn, degrees: number): Point {
  const turn = ((lead.sense === 'ccw' ? -degrees : degrees) * Math.PI) / 180;
  const [dx, dy] = [lead.to.x - lead.centre.x, lead.to.y - lead.centre.y];
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return { x: lead.centre.x + dx * cos - dy * sin, y: lead.centre.y + dx * sin + dy * cos };
}

/** The run-in up to a degree before its end, and back: where it crosses another contour, this does. */
function thereAndBack({ from, centre, sense, ...lead }: LeadIn): Contour {
  const to = pointBefore({ from, centre, sense, ...lead }, 1);
  return {
    kind: 'path',
    start: from,
    segments: [
      { kind: 'arc', to, centre, sense },
      { kind: 'arc', to: from, centre, sense: sense === 'ccw' ? 'cw' : 'ccw' },
    ],
  };
}
