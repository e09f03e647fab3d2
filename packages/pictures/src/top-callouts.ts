import { plain, sizeWords, timesWords } from '@sheetwave/drawings';
import { type Element, type Point, shapeExtent } from '@sheetwave/geometry';
import type { Callout } from './callouts.ts';
import { scalePoint } from './scale.ts';
import type { View } from './top-view.ts';

/** What the picture names: each layer, the feed point, the harness, the coax, the fixing and the reflector. */
export function calloutsOf(view: View): readonly Callout[] {
  return [...patchCallouts(view), ...feedCallouts(view), ...harnessCallouts(view), ...plateCallouts(view)];
}

/** Elements of the rightmost column from the top down: labels point at different ones, so that leaders stay apart. */
function rightElements(view: View): readonly Element[] {
  const column = Math.max(...view.assembly.elements.map((element) => element.column));
  return view.assembly.elements.filter((element) => element.column === column).sort((a, b) => b.row - a.row);
}

function elementFor(view: View, index: number): Element | undefined {
  const right = rightElements(view);
  return right[Math.min(right.length - 1, index)];
}

function patchCallouts(view: View): readonly Callout[] {
  const { assembly, scale } = view;
  return [...assembly.design.layers.entries()].reverse().flatMap(([layer, { name }], index) => {
    const element = elementFor(view, index);
    const place = assembly.placements.find((one) => one.layer === layer && view.parts.get(one.part)?.form !== 'bought');
    const part = place === undefined ? undefined : view.parts.get(place.part);
    const height = assembly.layerHeights[layer];
    if (element === undefined || height === undefined) return [];
    const title = part?.name ?? `${name} patch`;
    const size = part === undefined ? [] : [`${sizeWords(part)}`];
    const shape = assembly.design.layers[layer]?.shape;
    const extent =
      shape === undefined ? { widthMm: 0, heightMm: 0 } : shapeExtent(shape, assembly.design.lattice.orientation);
    // A whole corner of a rectangle is metal; other shapes are pointed at nearer their middle.
    const round = shape?.kind !== 'rectangle' ? Math.SQRT1_2 : shape.corners === undefined ? 1 : 0.85;
    const corner = {
      x: element.centre.x + (extent.widthMm / 2) * round * 0.9,
      y: element.centre.y + (extent.heightMm / 2) * round * (0.85 - 0.3 * index),
    };
    return [
      {
        id: `layer-${layer}`,
        anchor: scalePoint(corner, scale),
        title,
        lines: [...size, `${plain(height.undersideMm)} mm above the reflector, ${assembly.elements.length} needed`],
      },
    ];
  });
}

function feedCallouts(view: View): readonly Callout[] {
  const element = elementFor(view, view.assembly.design.layers.length);
  if (element === undefined) return [];
  const { feed } = view.assembly.design;
  const words =
    feed.kind === 'probe'
      ? `pin Ø ${plain(feed.probeDiameterMm)} mm, ${plain(feed.fromEdgeMm)} mm from the edge`
      : `${feed.kind} feed`;
  return [{ id: 'feed-point', anchor: scalePoint(element.feedPoint, view.scale), title: 'feed point', lines: [words] }];
}

function harnessCallouts(view: View): readonly Callout[] {
  const { assembly, scale } = view;
  const { coax, connector } = assembly.design.coax;
  const entry = connector !== undefined && connector.mount !== 'cable' ? connector.label : coax.label;
  const title = connector !== undefined && connector.mount !== 'cable' ? 'connector' : 'coax';
  const out: Callout[] = [{ id: 'coax', anchor: scalePoint(assembly.coaxPoint, scale), title, lines: [entry] }];
  const run = assembly.harness.flatMap((split) => split.arms.flat()).sort((a, b) => rightmost(b) - rightmost(a))[0];
  if (run !== undefined) {
    const kind = assembly.design.harness.kind;
    const middle = { x: run.from.x + (run.to.x - run.from.x) * 0.35, y: run.from.y + (run.to.y - run.from.y) * 0.35 };
    const height =
      'heightMm' in assembly.design.harness
        ? [`${plain(assembly.design.harness.heightMm)} mm above the reflector`]
        : [];
    out.push({ id: 'harness', anchor: scalePoint(middle, scale), title: `${kind} harness`, lines: height });
  }
  return out;
}

const rightmost = (run: { readonly from: Point; readonly to: Point }): number => Math.max(run.from.x, run.to.x);

function plateCallouts(view: View): readonly Callout[] {
  const { assembly, scale, reflector } = view;
  const part = view.parts.get('reflector');
  const out: Callout[] = [];
  if (part !== undefined)
    out.push({
      id: 'reflector',
      anchor: { x: reflector.maxX - 2, y: reflector.minY + (reflector.maxY - reflector.minY) * 0.08 },
      title: 'reflector',
      lines: [sizeWords(part)],
    });
  const fixing = view.assembly.elements.length > 0 ? elementFor(view, 99) : undefined;
  const screw = assembly.parts.find((one) => one.form === 'bought' && one.item.kind === 'spacer');
  if (fixing !== undefined && screw !== undefined)
    out.push({
      id: 'fixing',
      anchor: scalePoint(fixing.centre, scale),
      title: 'fixing',
      lines: [screw.name, timesWords(screw.quantity)],
    });
  return out;
}
