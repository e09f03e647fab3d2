import type { Flat } from '@sheetwave/geometry';
import { fill, micro, type Side, type Spot, sidesOf, sidesWithout, toSpot } from './fill.ts';
import { area, facing, wall } from './layered.ts';
import type { Triangle, Vertex } from './mesh.ts';

/**
 * Pockets cut into the face on the bed of a closed mesh whose corners there lie on the grid of 1 µm. The borders must lie
 * inside that face and touch nothing; the solid over them must be thicker than the pockets are deep. Gives undefined when
 * there is nothing to cut.
 */
export function engraveBed(
  triangles: readonly Triangle[],
  engraving: { readonly flat: Flat; readonly depthMm: number } | undefined,
): readonly Triangle[] | undefined {
  if (engraving === undefined || area(engraving.flat) <= 0) return undefined;
  const onBed = (triangle: Triangle): boolean => triangle.every(([, , z]) => z === 0);
  const floor = triangles.filter(onBed).flatMap(sidesAsSeenFromAbove);
  const pocket = sidesOf(engraving.flat.map((loop) => loop.map(toSpot)));
  const depth = micro(engraving.depthMm);
  return [
    ...triangles.filter((triangle) => !onBed(triangle)),
    ...fill([...outerSides(floor), ...pocket.map(turned)]).map((facet) => facing(facet, 0, 'down')),
    ...fill(pocket).map((facet) => facing(facet, depth, 'down')),
    ...pocket.map(turned).flatMap((side) => wall(side, [0, depth], side)),
  ];
}

const turned = ([from, to]: Side): Side => [to, from];

/** Floor facets look down: seen from above their sides run the other way. */
function sidesAsSeenFromAbove([a, b, c]: Triangle): readonly Side[] {
  return sidesOf([[c, b, a].map(spotOf)]);
}

const spotOf = ([x, y]: Vertex): Spot => [micro(x), micro(y)];

/** Sides that only one facet has. */
function outerSides(sides: readonly Side[]): readonly Side[] {
  const shared = new Set(sidesWithout(sides, sides.map(turned)).map((side) => side.join()));
  return sides.filter((side) => shared.has(side.join()));
}
