import type { Finding } from '@sheetwave/design';
import type { Assembly, BoardPart, Part, Placement, PlatePart } from '../assembly.ts';
import { errorFinding } from '../finding.ts';
import { placePoint } from '../transform.ts';
import { spot } from './contour-findings.ts';

/** Parts named twice, pieces of no part, and quantities that are not the number of pieces placed. */
export function quantityFindings({ parts, placements }: Assembly): Finding[] {
  const counts = new Map<string, number>(parts.map((part) => [part.id, 0]));
  const unknown = placements.filter((p) => !counts.has(p.part));
  for (const { part } of placements) counts.set(part, (counts.get(part) ?? 0) + 1);
  const repeated = parts.filter((part, i) => parts.findIndex((other) => other.id === part.id) !== i);
  return [
    ...repeated.map((part) =>
      wrongCount(part.id, 'two parts of this name', 'instead of a name of its own for each part'),
    ),
    ...unknown.slice(0, 1).map((p) => wrongCount(p.part, 'a piece of a part', 'that is not listed')),
    ...parts
      .filter((part) => counts.get(part.id) !== part.quantity)
      .map((part) =>
        wrongCount(part.id, `quantity ${part.quantity}`, `while ${counts.get(part.id)} pieces are placed`),
      ),
  ];
}

/** Fixing holes of patches that have no fixing hole of the reflector below them: the spacer could not be fixed. */
export function concentricFindings(assembly: Assembly): Finding[] {
  const parts = new Map(assembly.parts.map((part) => [part.id, part]));
  const below = fixingCentres(assembly, parts, (part) => part.role === 'reflector').map(({ at }) => key(at.x, at.y));
  const holes = new Set(below.flat());
  const above = fixingCentres(assembly, parts, (part) => part.role === 'patch');
  const astray = above.filter(({ at }) => !key(at.x, at.y).some((k) => holes.has(k)));
  const [first] = astray;
  if (first === undefined) return [];
  const more = astray.length > 1 ? `, and ${astray.length - 1} more` : '';
  return [
    errorFinding('holes-not-in-line', `part ${first.placement.part}`, {
      value: `a fixing hole at ${spot(first.at)} in the antenna${more}`,
      allowed: 'has no fixing hole of the reflector below it',
      remedy: 'give the first layer a spacer with a fixing hole, or leave the hole out',
    }),
  ];
}

function fixingCentres(
  assembly: Assembly,
  parts: ReadonlyMap<string, Part>,
  wanted: (part: PlatePart | BoardPart) => boolean,
): { placement: Placement; at: { x: number; y: number } }[] {
  return assembly.placements.flatMap((placement) => {
    const part = parts.get(placement.part);
    if (part === undefined || (part.form !== 'plate' && part.form !== 'board') || !wanted(part)) return [];
    const fixing = part.outline.holes.filter((hole) => hole.purpose === 'fixing');
    return fixing.map((hole) => ({ placement, at: placePoint(hole.centre, placement) }));
  });
}

/** Two rasters of 0.01 mm, half a step apart: points within a micrometre or so share a cell of at least one. */
function key(x: number, y: number): string[] {
  const cells = [0, 0.5].map((shift) => [Math.floor(x / 0.01 + shift), Math.floor(y / 0.01 + shift)] as const);
  const [[ax, ay] = [0, 0], [bx, by] = [0, 0]] = cells;
  return [`a${ax},${ay}`, `b${bx},${by}`, `c${ax},${by}`, `d${bx},${ay}`];
}

function wrongCount(part: string, value: string, allowed: string): Finding {
  return errorFinding('quantity-differs', `part ${part}`, {
    value,
    allowed,
    remedy: 'report this: the parts list would be wrong',
  });
}
