import type { Assembly, BoardPart, FileKind, Part, PlatePart } from '@sheetwave/geometry';

/** What the steps are made from. */
export interface StepContext {
  readonly assembly: Assembly;
  readonly files: readonly PlanFile[];
}

/** A file of the pack. */
export interface PlanFile {
  readonly path: string;
  readonly kind: FileKind;
  readonly part: string | undefined;
}

export const platesOf = ({ assembly }: StepContext): readonly PlatePart[] =>
  assembly.parts.flatMap((part) => (part.form === 'plate' ? [part] : []));

export const boardsOf = ({ assembly }: StepContext): readonly BoardPart[] =>
  assembly.parts.flatMap((part) => (part.form === 'board' ? [part] : []));

/** Paths of files of some kinds, of one part or of all. Drawings come as PDF: the SVG shows the same. */
export function pathsOf({ files }: StepContext, kinds: readonly FileKind[], part?: string): readonly string[] {
  return files
    .filter(
      (file) => !file.path.endsWith('.svg') && kinds.includes(file.kind) && (part === undefined || file.part === part),
    )
    .map(({ path }) => path);
}

/** Parts of one form whose pieces sit on a layer, or undefined for those that sit on none. */
export function partsOnLayer({ assembly }: StepContext, layer: number | undefined): readonly Part[] {
  const ids = new Set(assembly.placements.filter((one) => one.layer === layer).map(({ part }) => part));
  return assembly.parts.filter(({ id }) => ids.has(id));
}

export const idsOf = (parts: readonly Part[]): readonly string[] => parts.map(({ id }) => id);

/** The connector, where the antenna has one. */
export const connectorPart = ({ assembly }: StepContext): readonly string[] =>
  assembly.parts.flatMap((part) => (part.form === 'bought' && part.item.kind === 'connector' ? [part.id] : []));
