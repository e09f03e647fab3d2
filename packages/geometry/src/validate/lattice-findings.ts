import type { Finding } from '@sheetwave/design';
import type { Assembly } from '../assembly.ts';
import { BoxGrid } from '../box-grid.ts';
import { type Bounds, bounds } from '../contour-measure.ts';
import { errorFinding, mm, warningFinding } from '../finding.ts';
import type { Contour } from '../outline.ts';
import { minimumReflector } from '../reflector-size.ts';
import { moveContour, placeContour, turnContour } from '../transform.ts';
import { spot } from './contour-findings.ts';
import { overlap } from './outline-findings.ts';

interface Patch {
  readonly contour: Contour;
  readonly box: Bounds;
}

/** Patches of one layer that overlap, patches beyond the reflector, and a reflector below what the rule asks for. */
export function latticeFindings(assembly: Assembly): Finding[] {
  const layers = patchesByLayer(assembly);
  return [
    ...[...layers.entries()].flatMap(([layer, patches]) => overlapFindings(layer, patches)),
    ...overhangFindings(layers, assembly),
    ...smallReflectorFindings(assembly),
  ];
}

/** Outlines of patches, or their etched copper where they have no outline of their own, in antenna coordinates. */
function patchesByLayer(assembly: Assembly): Map<number, Patch[]> {
  const parts = new Map(assembly.parts.map((part) => [part.id, part]));
  const turned = new Map<string, Contour>();
  const layers = new Map<number, Patch[]>();
  const add = (layer: number, contour: Contour): void => {
    const list = layers.get(layer) ?? [];
    list.push({ contour, box: bounds(contour) });
    layers.set(layer, list);
  };
  for (const { part: id, at, turnDeg, layer } of assembly.placements) {
    const part = parts.get(id);
    if (part === undefined || layer === undefined || (part.form !== 'plate' && part.form !== 'board')) continue;
    const known = turned.get(`${id} ${turnDeg}`) ?? turnContour(part.outline.outer, turnDeg);
    turned.set(`${id} ${turnDeg}`, known);
    add(layer, moveContour(known, at));
  }
  for (const contour of etchedOnReflector(assembly)) add(0, contour);
  return layers;
}

function etchedOnReflector(assembly: Assembly): readonly Contour[] {
  const boards = assembly.parts.flatMap((part) => (part.form === 'board' && part.role === 'reflector' ? [part] : []));
  return boards.flatMap((board) => {
    const placement = assembly.placements.find((p) => p.part === board.id);
    const patches = board.copper.top.filter((piece) => piece.purpose === 'patch');
    return placement === undefined ? [] : patches.map((piece) => placeContour(piece.contour, placement));
  });
}

function overlapFindings(layer: number, patches: readonly Patch[]): Finding[] {
  const widest = patches.reduce((most, { box }) => Math.max(most, box.maxX - box.minX, box.maxY - box.minY), 1);
  const grid = new BoxGrid<Patch>(widest);
  for (const patch of patches) {
    const other = grid.near(patch.box).find((near) => overlap(near.contour, patch.contour));
    if (other !== undefined) return [overlapping(layer, patch.box, other.box)];
    grid.add(patch.box, patch);
  }
  return [];
}

function overlapping(layer: number, a: Bounds, b: Bounds): Finding {
  const [p, q] = [middle(a), middle(b)];
  return errorFinding('patches-overlap', `layer[${layer}]`, {
    value: `patches at ${spot(q)} and ${spot(p)}, ${mm(Math.hypot(p.x - q.x, p.y - q.y))} apart`,
    allowed: `overlap, being ${mm(a.maxX - a.minX)} wide and ${mm(a.maxY - a.minY)} high`,
    remedy: 'increase the pitch of the lattice or make the patches smaller',
  });
}

/** One finding for the layer that reaches farthest: its remedy mends the others too. */
function overhangFindings(layers: ReadonlyMap<number, readonly Patch[]>, { reflector }: Assembly): Finding[] {
  const [halfWidth, halfHeight] = [reflector.widthMm / 2, reflector.heightMm / 2];
  const beyond = ({ box }: Patch): number =>
    Math.max(-halfWidth - box.minX, box.maxX - halfWidth, -halfHeight - box.minY, box.maxY - halfHeight);
  const [worst] = [...layers.entries()]
    .map(([layer, patches]) => ({
      layer,
      overMm: patches.reduce((most, patch) => Math.max(most, beyond(patch)), -Infinity),
    }))
    .sort((a, b) => b.overMm - a.overMm);
  if (worst === undefined || !(worst.overMm > 1e-6)) return [];
  return [
    errorFinding('patch-beyond-reflector', `layer[${worst.layer}]`, {
      value: 'a patch',
      allowed: `reaches up to ${mm(worst.overMm)} beyond the reflector of ${mm(reflector.widthMm)} x ${mm(reflector.heightMm)}`,
      remedy: 'enlarge the reflector',
    }),
  ];
}

function smallReflectorFindings(assembly: Assembly): Finding[] {
  const runs = assembly.harness.flatMap((split) => split.arms.flat());
  const points = [assembly.coaxPoint, ...runs.flatMap((run) => [run.from, run.to])];
  const least = minimumReflector(assembly.design, assembly.elements, points);
  const { widthMm, heightMm } = assembly.reflector;
  if (widthMm >= least.widthMm - 1e-6 && heightMm >= least.heightMm - 1e-6) return [];
  return [
    warningFinding('reflector-small', 'reflector.size', {
      value: `${mm(widthMm)} x ${mm(heightMm)}`,
      allowed: `is less than ${mm(least.widthMm)} x ${mm(least.heightMm)}: ${least.rule}`,
      remedy: 'enlarge it, or accept more radiation backward',
    }),
  ];
}

const middle = (box: Bounds) => ({ x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 });
