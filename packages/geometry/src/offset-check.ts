import { bounds, perimeter, signedArea } from './contour-measure.ts';
import { selfCrossings } from './crossings.ts';
import { flattenContour } from './flatten.ts';
import { beyondMitre, MITRE_LIMIT } from './offset-joint.ts';
import { offsetPiece } from './offset-piece.ts';
import type { Contour } from './outline.ts';
import { contourPieces } from './pieces.ts';
import { differingArea, inflatePolygon } from './polygon-boolean.ts';

interface OffsetCase {
  readonly contour: Contour;
  readonly result: Contour;
  readonly distanceMm: number;
  readonly corners: 'sharp' | 'round';
}

/** Throws, with the distance and the reason, unless `result` is the contour at that distance. */
export function checkOffset(offset: OffsetCase): void {
  const reason =
    wrongSense(offset) ??
    crossesItself(offset) ??
    wrongSize(offset) ??
    wrongArea(offset) ??
    differsFromPolygonOffset(offset);
  if (reason === undefined) return;
  const box = bounds(offset.contour);
  const size = `${round(box.maxX - box.minX)} x ${round(box.maxY - box.minY)} mm`;
  throw new Error(`offset by ${offset.distanceMm} mm of a contour of ${size} fails: ${reason}`);
}

function wrongSense({ contour, result, distanceMm }: OffsetCase): string | undefined {
  const [before, after] = [signedArea(contour), signedArea(result)];
  if (Math.sign(before) !== Math.sign(after)) return 'it is turned inside out';
  const grown = (Math.abs(after) - Math.abs(before)) * Math.sign(distanceMm);
  return grown > 0 ? undefined : 'its area changes the wrong way';
}

function crossesItself({ result }: OffsetCase): string | undefined {
  const at = selfCrossings(result)[0];
  return at === undefined ? undefined : `it crosses itself at (${round(at.x)}, ${round(at.y)}) mm`;
}

/** Each side of the box moves by d; a mitred corner that is an extreme reaches further, a cut-back one less. */
function wrongSize({ contour, result, distanceMm }: OffsetCase): string | undefined {
  const [before, after] = [bounds(contour), bounds(result)];
  const moved = [
    before.minX - after.minX,
    before.minY - after.minY,
    after.maxX - before.maxX,
    after.maxY - before.maxY,
  ];
  const [least, most] = distanceMm > 0 ? [distanceMm, MITRE_LIMIT * distanceMm] : [-Infinity, distanceMm];
  const wrong = moved.find((m) => m < least - 1e-6 || m > most + 1e-6);
  return wrong === undefined ? undefined : `a side of its box moves by ${wrong} mm`;
}

/**
 * The area gained per distance is the perimeter on the way, so it lies between both perimeters; corners that are rounded or cut
 * back bend the way by a few d² each.
 */
function wrongArea({ contour, result, distanceMm }: OffsetCase): string | undefined {
  const gained = Math.abs(Math.abs(signedArea(result)) - Math.abs(signedArea(contour)));
  const [before, after] = [perimeter(contour), perimeter(result)];
  const d = Math.abs(distanceMm);
  const slack = 2 * contourPieces(contour).length * d * d;
  const right = gained >= Math.min(before, after) * d - slack && gained <= Math.max(before, after) * d + slack;
  return right ? undefined : `its area changes by ${round(gained)} mm², not by perimeter times distance`;
}

/** Both as polygons within half a micrometre; what differs may be no more than that band along the line. */
function differsFromPolygonOffset(offset: OffsetCase): string | undefined {
  const { contour, result, distanceMm, corners } = offset;
  const polygon = flattenContour(contour);
  const others = inflatePolygon(polygon, { byMm: distanceMm, corners, mitreLimit: MITRE_LIMIT });
  const differing = differingArea([flattenContour(result)], others);
  const squared = corners === 'sharp' ? acuteCorners(contour) * distanceMm * distanceMm : 0;
  const allowed = 0.0015 * Math.max(perimeter(contour), perimeter(result)) + squared;
  return differing <= allowed ? undefined : `${differing} mm² differ from the offset of a polygon`;
}

/** Corners that are rounded although sharp ones were asked for: the polygon offset cuts those off square instead. */
export function acuteCorners(contour: Contour): number {
  const pieces = contourPieces(contour).map((piece) => offsetPiece(piece, 0));
  const acute = pieces.filter((piece, i) => {
    const next = pieces[(i + 1) % pieces.length];
    return next !== undefined && beyondMitre(piece.normalTo, next.normalFrom);
  });
  return acute.length;
}

const round = (value: number): number => Math.round(value * 1e4) / 1e4;
