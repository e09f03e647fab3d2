import makerjs from 'makerjs';
import type { Contour, Point, Segment } from './outline.ts';
import { contourPieces, type Piece } from './pieces.ts';

// The only file that imports makerjs. Its booleans keep arcs; they also change their arguments and may leave chains open
// without a word, so models are built afresh for each call and every open end throws.

/** Borders of everything inside any of the contours, arcs kept, as makerjs finds them: in no order and of either sense. */
export function makerjsUnion(contours: readonly Contour[]): readonly Contour[] {
  return chainsOf(unionModel(contours.map(modelOf))).map(contourOf);
}

/** Halves first: every boolean meets models of like size, so that a hundred shapes don't each meet all the others. */
function unionModel(models: readonly makerjs.IModel[]): makerjs.IModel {
  const [first] = models;
  if (first === undefined) throw new Error('union: nothing to unite');
  if (models.length === 1) return first;
  const half = Math.ceil(models.length / 2);
  return makerjs.model.combineUnion(unionModel(models.slice(0, half)), unionModel(models.slice(half)));
}

function modelOf(contour: Contour): makerjs.IModel {
  if (contour.kind === 'circle') {
    const { centre, radiusMm } = contour;
    return { paths: { circle: new makerjs.paths.Circle([centre.x, centre.y], radiusMm) } };
  }
  const paths: Record<string, makerjs.IPath> = {};
  contourPieces(contour).forEach((piece, i) => {
    paths[`piece${i}`] = pathOf(piece);
  });
  return { paths };
}

/** Its arcs always run counter-clockwise from the first angle to the second, in degrees. */
function pathOf(piece: Piece): makerjs.IPath {
  const { from, to } = piece;
  if (piece.kind === 'line') return new makerjs.paths.Line([from.x, from.y], [to.x, to.y]);
  const { centre, radiusMm, startRad, sweepRad } = piece;
  const low = ((Math.min(startRad, startRad + sweepRad) * 180) / Math.PI + 720) % 360;
  const turn = (Math.abs(sweepRad) * 180) / Math.PI;
  return new makerjs.paths.Arc([centre.x, centre.y], radiusMm, low, low + turn);
}

function chainsOf(model: makerjs.IModel): readonly makerjs.IChain[] {
  let loosePaths = 0;
  const found = makerjs.model.findChains(model, (_, loose) => {
    loosePaths += loose.length;
  });
  const chains = Array.isArray(found) ? found : Object.values(found).flat();
  const open = chains.filter((chain) => !chain.endless).length;
  if (open + loosePaths > 0) throw new Error(`union: ${open} borders left open and ${loosePaths} loose pieces`);
  return chains;
}

function contourOf(chain: makerjs.IChain): Contour {
  const [only] = chain.links;
  if (only !== undefined && chain.links.length === 1) return circleOf(only);
  const starts = chain.links.map(linkStart);
  const segments = chain.links.map((link, i): Segment => {
    const to = starts[(i + 1) % starts.length];
    if (to === undefined) throw new Error('union: a border without corners');
    return segmentOf(link, to);
  });
  const [start] = starts;
  if (start === undefined) throw new Error('union: a border without corners');
  return { kind: 'path', start, segments };
}

/** A border of one piece is a circle, or an arc that came all the way round because something touched it at one point. */
function circleOf(link: makerjs.IChainLink): Contour {
  const { pathContext, offset } = link.walkedPath;
  const round = pathContext.type === makerjs.pathType.Circle || pathContext.type === makerjs.pathType.Arc;
  if (!round) throw new Error('union: a border of a single piece is no circle');
  const { radius } = pathContext as makerjs.IPathCircle;
  return { kind: 'circle', centre: moved(pathContext.origin, offset), radiusMm: radius };
}

function segmentOf(link: makerjs.IChainLink, to: Point): Segment {
  const { pathContext, offset } = link.walkedPath;
  if (pathContext.type === makerjs.pathType.Line) return { kind: 'line', to };
  if (pathContext.type !== makerjs.pathType.Arc) throw new Error(`union: an unexpected piece, ${pathContext.type}`);
  return { kind: 'arc', to, centre: moved(pathContext.origin, offset), sense: link.reversed ? 'cw' : 'ccw' };
}

function linkStart(link: makerjs.IChainLink): Point {
  const end = link.endPoints[link.reversed ? 1 : 0];
  if (end === undefined) throw new Error('union: a piece without ends');
  return moved(end, undefined);
}

function moved(point: makerjs.IPoint, offset: makerjs.IPoint | undefined): Point {
  // Its declaration of a point has only `length` and an index.
  const [at, by] = [point as readonly number[], (offset ?? [0, 0]) as readonly number[]];
  return { x: (at[0] ?? Number.NaN) + (by[0] ?? 0), y: (at[1] ?? Number.NaN) + (by[1] ?? 0) };
}
