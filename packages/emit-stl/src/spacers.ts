import type { Assembly, EmittedFile } from '@sheetwave/geometry';
import type { Printed } from './print.ts';
import { printable } from './printable.ts';
import { facetsOf, tube } from './solid.ts';

/** One line of a 0.4 mm nozzle (common practice). */
const LEAST_WALL_MM = 0.4;

interface PrintedTube {
  readonly heightMm: number;
  readonly outerMm: number;
  readonly boreMm: number;
  /** The printed part it makes; undefined where a bought spacer is used and this one is its gauge. */
  readonly part: string | undefined;
}

/**
 * A tube for every distinct gap under a layer: the printed spacer itself, or beside a bought one an alternative to it and a
 * gauge for it. Bores carry the printer's hole allowance.
 */
export function spacerFiles(assembly: Assembly): Printed {
  const notes: string[] = [];
  const tubes = assembly.design.layers.flatMap((_, index) => {
    const wanted = tubeUnder(assembly, index);
    if (typeof wanted === 'string') notes.push(wanted);
    return wanted === undefined || typeof wanted === 'string' ? [] : [wanted];
  });
  const distinct = new Map<string, PrintedTube>();
  // A printed part goes before a gauge of the same size.
  for (const each of [...tubes.filter((t) => t.part !== undefined), ...tubes.filter((t) => t.part === undefined)]) {
    const key = [each.heightMm, each.outerMm, each.boreMm].map((mm) => mm.toFixed(4)).join();
    if (!distinct.has(key)) distinct.set(key, each);
  }
  const all = [...distinct.values()];
  const footMm = assembly.design.print.elephantFootMm;
  return { files: all.flatMap((each) => spacerFile(each, all, footMm)), notes: [...new Set(notes)] };
}

function tubeUnder(assembly: Assembly, index: number): PrintedTube | string | undefined {
  const { layers, print } = assembly.design;
  const layer = layers[index];
  if (layer?.spacer === undefined) return undefined;
  if (layer.spacer.kind === 'printed') {
    const part = printedPart(assembly, index);
    const boreMm = part.boreMm + print.holeAllowanceMm;
    const wallMm = (part.outerMm - boreMm) / 2;
    if (wallMm < LEAST_WALL_MM)
      return `${part.name} left out: ${lengthLabel(part.outerMm)} outside a bore of ${lengthLabel(boreMm)} leaves no wall that prints`;
    return { heightMm: part.heightMm, outerMm: part.outerMm, boreMm, part: part.id };
  }
  const heightMm = layer.spacer.spacer.bodyMm;
  if (layer.fixingHoleMm === undefined)
    return `printed spacer of ${heightMm} mm left out: layer ${layer.name} has no fixing hole to take its bore from`;
  const boreMm = layer.fixingHoleMm + print.holeAllowanceMm;
  return { heightMm, outerMm: boreMm + 2 * print.wallMm, boreMm, part: undefined };
}

function printedPart(assembly: Assembly, layer: number) {
  const ids = assembly.placements.filter((placement) => placement.layer === layer).map((placement) => placement.part);
  const part = assembly.parts.find((p) => p.form === 'printed-spacer' && ids.includes(p.id));
  if (part?.form !== 'printed-spacer') throw new Error(`the assembly has no printed spacer under layer ${layer}`);
  return part;
}

function spacerFile(spacer: PrintedTube, all: readonly PrintedTube[], footMm: number): readonly EmittedFile[] {
  const { heightMm, outerMm, boreMm, part } = spacer;
  const height = lengthLabel(heightMm);
  const alone = all.filter((other) => lengthLabel(other.heightMm) === height).length === 1;
  const sizes = alone ? '' : `-outer-${lengthLabel(outerMm)}-bore-${lengthLabel(boreMm)}`;
  // Half of the wall stays to stand on.
  const bevelMm = Math.min(footMm, (outerMm - boreMm) / 8, heightMm / 4);
  return printable(facetsOf(tube({ outerMm, boreMm, heightMm, bevelMm })), {
    path: `jigs/spacer-${height}${sizes}`,
    title: `spacer ${height} high, bore ${lengthLabel(boreMm)}`,
    use: `Its height of ${height} is electrical: measure it at four places, and choose a layer height that divides it. Run a drill through the bore.`,
    part,
    sizeMm: [outerMm, outerMm, heightMm],
    exactMm: [[], [], [0, heightMm]],
  });
}

/** Two decimals; more only where they are needed. */
function lengthLabel(mm: number): string {
  return `${Math.abs(mm - Number(mm.toFixed(2))) < 1e-9 ? mm.toFixed(2) : mm.toFixed(4)}mm`;
}
