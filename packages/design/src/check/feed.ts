import type { Design, Feed, PatchShape } from '../design.ts';
import { formatLength } from '../quantity.ts';
import type { Report } from '../report.ts';

/** How far a feed may go in from the edge, mm, and what lies there; undefined for a drawn outline, which geometry looks at. */
function feedReach(shape: PatchShape): { readonly mm: number; readonly words: string } | undefined {
  switch (shape.kind) {
    case 'rectangle':
      return { mm: shape.lengthMm / 2, words: 'is beyond the centre of the driven patch' };
    case 'circle':
      return { mm: shape.diameterMm / 2, words: 'is beyond the centre of the driven patch' };
    case 'ring':
      return { mm: (shape.outerMm - shape.innerMm) / 2, words: 'is in the opening of the driven ring' };
    case 'triangle':
      return { mm: (shape.sideMm * Math.sqrt(3)) / 2, words: 'is beyond the corner across from the edge' };
    case 'outline':
      return undefined;
  }
}

function outside(key: string, mm: number, report: Report, words: { allowed: string; remedy: string }): void {
  report.error({ code: 'feed-outside-patch', path: ['feed', key], value: formatLength(mm), ...words });
}

function checkProbe(feed: Feed & { kind: 'probe' }, shape: PatchShape, report: Report): void {
  const reach = feedReach(shape);
  const least = feed.solderHoleMm / 2;
  if (reach !== undefined && feed.fromEdgeMm > reach.mm) {
    const remedy = `give at most ${formatLength(reach.mm)}`;
    outside('from_edge', feed.fromEdgeMm, report, { allowed: reach.words, remedy });
  } else if (feed.fromEdgeMm <= least) {
    const allowed = 'puts the solder hole over the edge of the driven patch';
    outside('from_edge', feed.fromEdgeMm, report, { allowed, remedy: `give more than ${formatLength(least)}` });
  }
  if (feed.solderHoleMm >= feed.probeDiameterMm) return;
  report.error({
    code: 'hole-too-small',
    path: ['feed', 'solder_hole'],
    value: formatLength(feed.solderHoleMm),
    allowed: `is smaller than the probe of ${formatLength(feed.probeDiameterMm)}`,
    remedy: 'leave it out to take the probe plus 0.2 mm, or give a larger hole',
  });
}

function checkInset(feed: Feed & { kind: 'inset' }, shape: PatchShape, report: Report): void {
  if (shape.kind !== 'rectangle' || shape.slot !== undefined) {
    report.error({
      code: 'inset-needs-rectangle',
      path: ['feed', 'kind'],
      value: '"inset"',
      allowed: 'needs a rectangle without a slot to be cut into',
      remedy: 'write shape = "rectangle" without slot in the first layer, or kind = "edge" here',
    });
    return;
  }
  if (feed.depthMm < shape.lengthMm / 2) return;
  const allowed = 'reaches the centre of the driven patch';
  outside('depth', feed.depthMm, report, { allowed, remedy: `give less than ${formatLength(shape.lengthMm / 2)}` });
}

/** Two slots and the line between them must leave some patch on both sides. */
function checkSlots(design: Design, report: Report): void {
  const { feed, harness } = design;
  const shape = design.layers[0]?.shape;
  if (feed.kind !== 'inset' || harness.kind !== 'microstrip' || shape?.kind !== 'rectangle') return;
  const line = harness.levels.at(-1)?.widthMm ?? harness.lead?.widthMm ?? 0;
  if (2 * feed.gapMm + line < shape.widthMm) return;
  const allowed = 'leaves no patch beside the slots and the line between them';
  outside('gap', feed.gapMm, report, { allowed, remedy: 'give a smaller gap, a narrower line or a wider patch' });
}

/** The feed must meet the driven patch. */
export function checkFeed(design: Design, report: Report): void {
  const shape = design.layers[0]?.shape;
  if (shape === undefined) return;
  if (design.feed.kind === 'probe') checkProbe(design.feed, shape, report);
  if (design.feed.kind === 'inset') checkInset(design.feed, shape, report);
  checkSlots(design, report);
}
