import type { LumpedElement, Port, Scene, Sheet, Solid, Wire } from '@sheetwave/field';

/** A piece of the scene, and the field of the design file that it comes from. */
export interface ScenePart {
  /** Path as in a finding: `layer[0]`, `harness`, `reflector`. */
  readonly path: string;
  readonly sheets?: readonly Sheet[];
  readonly solids?: readonly Solid[];
  readonly wires?: readonly Wire[];
  readonly ports?: readonly Port[];
}

/** A scene whose parts know where in the design they come from. */
export interface TracedScene {
  readonly scene: Scene;
  /** Paths of the design in the order of the scene's lists. */
  readonly paths: Readonly<Record<'sheets' | 'solids' | 'wires' | 'ports', readonly string[]>>;
}

export function joinParts(parts: readonly ScenePart[]): TracedScene {
  const list = <K extends 'sheets' | 'solids' | 'wires' | 'ports'>(key: K) =>
    parts.flatMap((part) => (part[key] ?? []).map((item) => ({ item, path: part.path })));
  const lists = { sheets: list('sheets'), solids: list('solids'), wires: list('wires'), ports: list('ports') };
  const items = <T>(all: readonly { readonly item: T }[]): T[] => all.map(({ item }) => item);
  const paths = (all: readonly { readonly path: string }[]) => all.map(({ path }) => path);
  return {
    scene: {
      sheets: items(lists.sheets) as Sheet[],
      solids: items(lists.solids) as Solid[],
      wires: items(lists.wires) as Wire[],
      ports: items(lists.ports) as Port[],
      elements: [] as LumpedElement[],
    },
    paths: {
      sheets: paths(lists.sheets),
      solids: paths(lists.solids),
      wires: paths(lists.wires),
      ports: paths(lists.ports),
    },
  };
}
