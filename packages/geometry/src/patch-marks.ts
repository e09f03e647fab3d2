import { handOfPatch, type Layer } from '@sheetwave/design';
import type { Mark } from './outline.ts';
import { centreLineSpans, feedEdgeMm, patchMetal } from './shapes/patch-metal.ts';

type Span = readonly [number, number];

/**
 * Which way round the patch goes, as seen from in front: its centre line where there is metal, words inside the fed edge of the driven
 * patch and along the length of others, and the hand that cut corners give. None for a disc or ring above the driven patch.
 */
export function patchMarks(layer: Layer, index: number): Mark[] {
  const { kind } = layer.shape;
  if ((kind === 'circle' || kind === 'ring') && index > 0) return [];
  const spans = spansOf(layer);
  const lines = spans.map(
    ([from, to]): Mark => ({ kind: 'line', purpose: 'centre', from: { x: 0, y: from }, to: { x: 0, y: to } }),
  );
  return [...lines, ...words(layer, spans, index), ...handWords(layer, index)];
}

/** Rectangles and discs have one span by their sizes; the rest is looked at. */
function spansOf({ shape }: Layer): readonly Span[] {
  const half = feedEdgeMm(shape);
  if (shape.kind === 'circle' || (shape.kind === 'rectangle' && shape.slot?.kind !== 'u')) return [[-half, half]];
  return centreLineSpans(patchMetal(shape));
}

function words({ shape }: Layer, spans: readonly Span[], index: number): Mark[] {
  const half = feedEdgeMm(shape);
  const [first = [-half, half] as const] = spans;
  if (index === 0) {
    const heightMm = Math.min(2, half / 4, (first[1] - first[0]) / 2);
    const at = { x: 0, y: first[0] + heightMm / 2 };
    return [{ kind: 'text', purpose: 'feed-edge', at, text: 'feed edge', heightMm }];
  }
  if (shape.kind === 'rectangle')
    return [
      { kind: 'text', purpose: 'label', at: { x: 0, y: half / 2 }, text: 'length', heightMm: Math.min(2, half / 4) },
    ];
  const longest = spans.reduce((best, one) => (one[1] - one[0] > best[1] - best[0] ? one : best), first);
  const heightMm = Math.min(2, (longest[1] - longest[0]) / 4);
  // Above the middle, so that a fixing hole there leaves it readable.
  const at = { x: 0, y: longest[0] + 0.7 * (longest[1] - longest[0]) };
  return [{ kind: 'text', purpose: 'label', at, text: 'up', heightMm }];
}

/** The two cut corners show which hand it is; the words say it at the bench. */
function handWords({ shape }: Layer, index: number): Mark[] {
  const hand = handOfPatch(shape);
  if (hand === undefined) return [];
  const half = feedEdgeMm(shape);
  const at = { x: 0, y: (index === 0 ? 0.5 : -0.5) * half };
  return [{ kind: 'text', purpose: 'label', at, text: `${hand} front`, heightMm: Math.min(2, half / 4) }];
}
