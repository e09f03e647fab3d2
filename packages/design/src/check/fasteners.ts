import type { Design, Layer } from '../design.ts';
import type { KeyPath } from '../path.ts';
import { formatLength } from '../quantity.ts';
import type { Report } from '../report.ts';
import { clearanceHoleMm } from '../stock/threads.ts';

/** Two printed lines of a 0.4 mm nozzle; less does not hold. Shop rule, from memory. */
const LEAST_WALL_MM = 0.8;

/** `M2.5` → 2.5. */
function nominalMm(thread: string): number {
  return Number(thread.slice(1));
}

interface Threaded {
  readonly path: KeyPath;
  readonly item: { readonly id: string; readonly thread: string } | undefined;
}

function threadedItems({ layers, hardware }: Design): readonly Threaded[] {
  return [
    ...layers.map(({ spacer }, index) => ({
      path: ['layer', index, 'spacer'],
      item: spacer?.kind === 'stock' ? spacer.spacer : undefined,
    })),
    { path: ['hardware', 'screw'], item: hardware.screw },
    { path: ['hardware', 'nut'], item: hardware.nut },
    { path: ['hardware', 'washer'], item: hardware.washer },
  ];
}

function checkThreads(design: Design, report: Report): void {
  const { thread } = design.hardware;
  for (const { path, item } of threadedItems(design)) {
    if (item === undefined || item.thread === thread) continue;
    const remedy = `use one for ${thread}, or write thread = "${item.thread}" under [hardware]`;
    report.error({
      code: 'thread-differs',
      path,
      value: `"${item.id}"`,
      allowed: `has thread ${item.thread} and the hardware ${thread}`,
      remedy,
    });
  }
}

function checkHole(layer: Layer, index: number, { hardware }: Design, report: Report): void {
  const { fixingHoleMm, spacer } = layer;
  if (spacer === undefined || fixingHoleMm === undefined || fixingHoleMm >= nominalMm(hardware.thread)) return;
  report.error({
    code: 'hole-too-small',
    path: ['layer', index, 'fixing_hole'],
    value: formatLength(fixingHoleMm),
    allowed: `does not let ${hardware.thread} through`,
    remedy: `give at least ${formatLength(clearanceHoleMm(hardware.thread, 'fine'))}`,
  });
}

function checkPrinted(layer: Layer, index: number, design: Design, report: Report): void {
  if (layer.spacer?.kind !== 'printed') return;
  const { thread, fit } = design.hardware;
  const least = clearanceHoleMm(thread, fit) + design.print.holeAllowanceMm + 2 * LEAST_WALL_MM;
  if (layer.spacer.outerMm >= least - 1e-9) return;
  report.error({
    code: 'wall-too-thin',
    path: ['layer', index, 'spacer', 'outer'],
    value: formatLength(layer.spacer.outerMm),
    allowed: `leaves a wall of less than ${formatLength(LEAST_WALL_MM)} around an ${thread} screw`,
    remedy: `give at least ${formatLength(least)}`,
  });
}

/** Threads agree, and screws go through what they hold. */
export function checkFasteners(design: Design, report: Report): void {
  checkThreads(design, report);
  design.layers.forEach((layer, index) => {
    checkHole(layer, index, design, report);
    checkPrinted(layer, index, design, report);
  });
}
