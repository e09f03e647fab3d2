import type { Design, Finding, Layer } from '@sheetwave/design';
import { contains, signedArea } from './contour-measure.ts';
import { contourCrossings, selfCrossings } from './crossings.ts';
import { errorFinding, mm } from './finding.ts';
import { feedPointInElement } from './lattice.ts';
import type { Contour, Point } from './outline.ts';
import { contourPieces } from './pieces.ts';
import { type DrawnPatch, sortedLoops } from './shapes/drawn-patch.ts';
import { centreLineSpans, discOnMetal, patchMetal } from './shapes/patch-metal.ts';
import { spot } from './validate/contour-findings.ts';

/**
 * What is wrong with the shapes of the patches by themselves: drawn curves that cross or do not make one part, and feeds and fixing holes
 * that miss the metal. Nothing can be assembled from such a design.
 */
export function shapeFindings(design: Design): Finding[] {
  const drawn = design.layers.flatMap((layer, index) =>
    layer.shape.kind === 'outline' ? drawnFindings(layer.shape, index) : [],
  );
  if (drawn.length > 0) return drawn;
  return [...feedFindings(design), ...design.layers.flatMap(fixingFindings)];
}

/** The first thing that is wrong with a drawn outline, in the coordinates of its drawing. */
function drawnFindings(shape: DrawnPatch, index: number): Finding[] {
  const wrong = problemOfLoops(shape) ?? problemOnCentreLine(shape);
  if (wrong === undefined) return [];
  const { code, ...words } = wrong;
  return [errorFinding(code, `layer[${index}].file`, { value: JSON.stringify(shape.file), ...words })];
}

interface Wrong {
  readonly code: string;
  readonly allowed: string;
  readonly remedy: string;
}

function problemOfLoops(shape: DrawnPatch): Wrong | undefined {
  const crossing = shape.loops.flatMap((loop) => selfCrossings(loop))[0];
  if (crossing !== undefined) return crosses(`crosses or touches itself at ${spot(crossing)}`);
  if (shape.loops.some((loop) => Math.abs(signedArea(loop)) < 1e-6))
    return crosses('has a closed curve that encloses nothing');
  const { outer, inner } = sortedLoops(shape);
  for (const [i, loop] of inner.entries()) {
    const meeting = [outer, ...inner.slice(0, i)].flatMap((other) => contourCrossings(other, loop))[0];
    if (meeting !== undefined) return crosses(`has two curves that cross or touch at ${spot(meeting)}`);
    if (!contains(outer, startOf(loop))) return several(loop);
    if (inner.some((other) => other !== loop && contains(other, startOf(loop)))) return nested(loop);
  }
  return undefined;
}

function crosses(allowed: string): Wrong {
  return { code: 'outline-crosses', allowed, remedy: 'draw curves that do not meet themselves or one another' };
}

function several(loop: Contour): Wrong {
  const allowed = `has a closed curve at ${spot(startOf(loop))} outside the largest one, so that it would be two parts`;
  return { code: 'outline-several', allowed, remedy: 'leave one outside, with its cut-outs inside it' };
}

function nested(loop: Contour): Wrong {
  const allowed = `has a closed curve at ${spot(startOf(loop))} inside a cut-out, where there is no metal`;
  return { code: 'outline-nested', allowed, remedy: 'remove it' };
}

function startOf(loop: Contour): Point {
  const [first] = contourPieces(loop);
  if (first === undefined) throw new Error('a closed curve has pieces');
  return first.from;
}

function problemOnCentreLine(shape: DrawnPatch): Wrong | undefined {
  if (centreLineSpans(patchMetal(shape)).length > 0) return undefined;
  return {
    code: 'outline-off-centre',
    allowed: 'has no metal on the vertical line through its centre, where the feed counts from',
    remedy: 'draw it about its centre line, or give another centre or turn',
  };
}

/** Plain shapes are held by the design's own checks of the feed. */
function hasOpenings({ shape }: Layer): boolean {
  return shape.kind !== 'circle' && (shape.kind !== 'rectangle' || shape.slot !== undefined);
}

function feedFindings(design: Design): Finding[] {
  const [driven] = design.layers;
  const { feed } = design;
  if (driven === undefined || feed.kind !== 'probe' || !hasOpenings(driven)) return [];
  const centre = feedPointInElement(design, driven);
  if (discOnMetal(patchMetal(driven.shape), { centre, radiusMm: feed.solderHoleMm / 2 })) return [];
  return [
    errorFinding('feed-off-metal', 'feed.from_edge', {
      value: mm(feed.fromEdgeMm),
      allowed: `puts the solder hole of ${mm(feed.solderHoleMm)} at ${spot(centre)} of the driven patch, which is not all metal`,
      remedy: 'move the feed, or move the slot or cut-out',
    }),
  ];
}

/** A sheet is fixed at its centre. A board carries its copper past an opening there, so its hole may miss the copper. */
function fixingFindings(layer: Layer, index: number): Finding[] {
  if (layer.build.kind !== 'sheet' || layer.fixingHoleMm === undefined || !hasOpenings(layer)) return [];
  const disc = { centre: { x: 0, y: 0 }, radiusMm: layer.fixingHoleMm / 2 };
  if (discOnMetal(patchMetal(layer.shape), disc)) return [];
  return [
    errorFinding('fixing-hole-off-metal', `layer[${index}]`, {
      value: `a fixing hole of ${mm(layer.fixingHoleMm)} at the centre`,
      allowed: 'is not wholly on the metal of this patch',
      remedy: 'move the slot or cut-out away from the centre, or etch the patch on a board of its own',
    }),
  ];
}
