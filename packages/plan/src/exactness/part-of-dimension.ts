import type { Assembly, Part } from '@sheetwave/geometry';

/** The part whose drawing shows a dimension of the design, by its path; undefined for one that is bought at its size. */
export function partOfDimension(assembly: Assembly, path: string): string | undefined {
  const { parts } = assembly;
  const layer = /^layer\[(\d+)\]\.(.*)$/.exec(path);
  if (layer !== null) return onLayer(assembly, Number(layer[1]), layer[2] ?? '');
  if (path.startsWith('feed.')) return onLayer(assembly, 0, '');
  if (path.startsWith('reflector.')) return idOf(parts, isReflector);
  const level = /^harness\.level\[(\d+)\]\./.exec(path)?.[1];
  if (level === undefined) return undefined;
  return idOf(parts, ({ id }) => id === `tube-level-${level}`) ?? idOf(parts, isStrip) ?? boardReflector(parts);
}

function onLayer({ parts, placements, design }: Assembly, layer: number, size: string): string | undefined {
  if (design.layers[layer]?.build.kind === 'on-reflector-board') return idOf(parts, isReflector);
  const ids = new Set(placements.filter((one) => one.layer === layer).map(({ part }) => part));
  const form = size.startsWith('spacer') ? isPrintedSpacer : isFlat;
  return idOf(parts, (part) => ids.has(part.id) && form(part));
}

const idOf = (parts: readonly Part[], is: (part: Part) => boolean): string | undefined => parts.find(is)?.id;

const isFlat = ({ form }: Part): boolean => form === 'plate' || form === 'board';
const isPrintedSpacer = ({ form }: Part): boolean => form === 'printed-spacer';
const isReflector = (part: Part): boolean => 'role' in part && part.role === 'reflector';
const isStrip = (part: Part): boolean => 'role' in part && part.role === 'strip';
const boardReflector = (parts: readonly Part[]): string | undefined =>
  idOf(parts, (part) => part.form === 'board' && isReflector(part));
