import { editDesignTexts, type FreeDimension, formatLength, type TextEdit } from '@sheetwave/design';

/** A free dimension as sizing sees it: a size in mm between two ends, some of them only at certain sizes. */
export interface Variable {
  readonly path: string;
  readonly lowMm: number;
  readonly highMm: number;
  /** Sizes that may be chosen, rising; undefined for any. */
  readonly sizesMm: readonly number[] | undefined;
  /** What the design has now, brought into the range. */
  readonly startMm: number;
  /** One unit of the search, mm: about what a quarter of the bandwidth of a patch asks for. */
  readonly scaleMm: number;
  /** Ids of stock, one for each of `sizesMm`; undefined for a length that is written as such. */
  readonly ids: readonly string[] | undefined;
}

/** Lengths are written to a hundredth of a millimetre: finer than anything holds. */
const FINEST_MM = 0.01;

const tidy = (mm: number): number => Math.round(mm * 1e6) / 1e6;

/** The sizes that a step leaves; undefined when there is no step. */
function stepped(fromMm: number, toMm: number, stepMm: number | undefined): readonly number[] | undefined {
  if (stepMm === undefined) return undefined;
  const count = Math.floor((toMm - fromMm) / stepMm + 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => tidy(fromMm + i * stepMm));
}

const clip = (mm: number, low: number, high: number): number => Math.min(high, Math.max(low, mm));

/** What one unit of the search is of a size: a place of a feed and a gap need more of their size than a resonant length does. */
function shareOf(path: string): number {
  if (path.startsWith('feed.')) return 0.15;
  if (path.endsWith('spacer.printed') || path === 'harness.height') return 0.1;
  return path.endsWith('.width') || path.includes('section') ? 0.06 : 0.03;
}

function lengthVariable(free: Extract<FreeDimension, { kind: 'length' }>): Variable {
  const sizesMm = stepped(free.fromMm, free.toMm, free.stepMm);
  const startMm = clip(free.valueMm, free.fromMm, free.toMm);
  const scaleMm = clip(shareOf(free.path) * startMm, FINEST_MM, (free.toMm - free.fromMm) / 2);
  return { path: free.path, lowMm: free.fromMm, highMm: free.toMm, sizesMm, startMm, scaleMm, ids: undefined };
}

function stockVariable(free: Extract<FreeDimension, { kind: 'stock' }>): Variable {
  const sizesMm = free.choices.map(({ sizeMm }) => sizeMm);
  const [lowMm = 0, highMm = 0] = [sizesMm[0], sizesMm.at(-1)];
  const now = free.choices.find(({ id }) => id === free.value)?.sizeMm;
  const startMm = now ?? sizesMm[Math.floor(sizesMm.length / 2)] ?? lowMm;
  const ids = free.choices.map(({ id }) => id);
  return { path: free.path, lowMm, highMm, sizesMm, startMm, scaleMm: 0.12 * startMm, ids };
}

/** What sizing may change, in the order of the design file. */
export function variablesOf(free: readonly FreeDimension[]): readonly Variable[] {
  return free.map((one) => (one.kind === 'length' ? lengthVariable(one) : stockVariable(one)));
}

/** The same with every length without a step of its own on whole multiples of `stepMm`, near `aroundMm`. */
export function roundedVariable(variable: Variable, aroundMm: number, stepMm: number): Variable {
  if (variable.sizesMm !== undefined) return { ...variable, sizesMm: [allowedSize(variable, aroundMm)] };
  const middle = Math.round(aroundMm / stepMm);
  const sizes = [-1, 0, 1].map((k) => tidy((middle + k) * stepMm));
  const sizesMm = sizes.filter((mm) => mm >= variable.lowMm && mm <= variable.highMm);
  return { ...variable, sizesMm: sizesMm.length > 0 ? sizesMm : [allowedSize(variable, aroundMm)] };
}

/** The same with another size to start from, and the unit of the search that goes with it. */
export function startingAt(variable: Variable, startMm: number): Variable {
  const { startMm: before, scaleMm, lowMm, highMm } = variable;
  return { ...variable, startMm, scaleMm: clip((scaleMm * startMm) / before, FINEST_MM, (highMm - lowMm) / 2) };
}

/** The nearest size that may be written. */
export function allowedSize(variable: Variable, mm: number): number {
  const inside = clip(mm, variable.lowMm, variable.highMm);
  if (variable.sizesMm === undefined) {
    return clip(tidy(Math.round(inside / FINEST_MM) * FINEST_MM), variable.lowMm, variable.highMm);
  }
  return variable.sizesMm.reduce((near, size) => (Math.abs(size - inside) < Math.abs(near - inside) ? size : near));
}

/** The text of the design with these sizes, in the order of the variables. Only what differs from the design's own is written. */
export function withSizes(text: string, variables: readonly Variable[], sizesMm: readonly number[]): TextEdit {
  const changes = variables.flatMap((variable, i): readonly [string, string][] => {
    const mm = sizesMm[i] ?? variable.startMm;
    if (variable.ids === undefined) return [[variable.path, formatLength(mm)]];
    const id = variable.ids[variable.sizesMm?.indexOf(mm) ?? -1];
    if (id === undefined) throw new RangeError(`${variable.path} has no stock of ${mm} mm`);
    return [[variable.path, id]];
  });
  return editDesignTexts(text, Object.fromEntries(changes));
}
