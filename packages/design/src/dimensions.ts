import type { Design, Harness, Layer, PatchShape, RodLevel, StripLevel } from './design.ts';
import { deepFreeze } from './freeze.ts';
import {
  bendTolerance,
  cutTolerance,
  drillTolerance,
  laminateTolerance,
  permittivityTolerance,
  sheetTolerance,
  spacerTolerance,
  type Tolerance,
} from './stock/tolerances.ts';

/**
 * What sets a dimension: `cut` an outline, which can be filed smaller but not larger; `open` a slot or an opening, which can be filed
 * larger but not smaller; `drill` a place of a hole; `spacer` what is bought or printed; `bend` a rod or strip; `stock` what came so.
 */
export type SetBy = 'cut' | 'open' | 'drill' | 'spacer' | 'bend' | 'stock';

/** One number of a design that a tool, a spacer or a supplier sets. */
export interface Dimension {
  /** Where it stands in the design file, or beside what: `layer[0].length`, `layer[0].spacer`, `layer[0].sheet`. */
  readonly path: string;
  /** For people: `length of driven`. */
  readonly words: string;
  readonly setBy: SetBy;
  /** mm; a plain number for a permittivity. */
  readonly nominal: number;
  readonly unit: 'mm' | '';
  readonly tolerance: Tolerance;
}

/** A dimension with the way to change it. */
interface Setting extends Dimension {
  /** The design with another value there; not checked. */
  readonly with: (value: number) => Design;
}

type Rectangle = Extract<PatchShape, { kind: 'rectangle' }>;

function replaced<T>(items: readonly T[], index: number, item: T): readonly T[] {
  return items.map((old, i) => (i === index ? item : old));
}

/** Size that a bow of its sheet is reckoned over, mm. */
function spanMm(shape: PatchShape): number {
  switch (shape.kind) {
    case 'rectangle':
      return Math.hypot(shape.lengthMm, shape.widthMm);
    case 'circle':
      return shape.diameterMm;
    case 'ring':
      return shape.outerMm;
    case 'triangle':
      return shape.sideMm;
    case 'outline':
      return 0;
  }
}

type Size = readonly [key: string, words: string, setBy: SetBy, mm: number, shape: (mm: number) => PatchShape];

function slotSizes(shape: Rectangle): readonly Size[] {
  const { slot } = shape;
  if (slot === undefined) return [];
  const put = (change: Partial<typeof slot>): PatchShape => ({ ...shape, slot: { ...slot, ...change } as typeof slot });
  const width: Size = ['slot.width', 'width of the slot', 'open', slot.slotMm, (slotMm) => put({ slotMm })];
  if (slot.kind === 'e') {
    return [
      ['slot.length', 'length of the slots', 'open', slot.lengthMm, (lengthMm) => put({ lengthMm })],
      ['slot.spacing', 'spacing of the slots', 'drill', slot.spacingMm, (spacingMm) => put({ spacingMm })],
      width,
    ];
  }
  return [
    ['slot.arm', 'arm of the slot', 'open', slot.armMm, (armMm) => put({ armMm })],
    ['slot.base', 'base of the slot', 'open', slot.baseMm, (baseMm) => put({ baseMm })],
    ['slot.offset', 'offset of the slot', 'drill', slot.offsetMm, (offsetMm) => put({ offsetMm })],
    width,
  ];
}

function rectangleSizes(shape: Rectangle): readonly Size[] {
  const { corners } = shape;
  const cut: readonly Size[] =
    corners?.kind === 'cut'
      ? [
          [
            'cut_corners.size',
            'cut of the corners',
            'open',
            corners.sizeMm,
            (sizeMm) => ({ ...shape, corners: { ...corners, sizeMm } }),
          ],
        ]
      : [];
  return [
    ['length', 'length', 'cut', shape.lengthMm, (lengthMm) => ({ ...shape, lengthMm })],
    ['width', 'width', 'cut', shape.widthMm, (widthMm) => ({ ...shape, widthMm })],
    ...cut,
    ...slotSizes(shape),
  ];
}

/** Of an outline from a drawing nothing is known by name. */
function shapeSizes(shape: PatchShape): readonly Size[] {
  switch (shape.kind) {
    case 'rectangle':
      return rectangleSizes(shape);
    case 'circle':
      return [['diameter', 'diameter', 'cut', shape.diameterMm, (diameterMm) => ({ ...shape, diameterMm })]];
    case 'ring':
      return [
        ['outer_diameter', 'outside diameter', 'cut', shape.outerMm, (outerMm) => ({ ...shape, outerMm })],
        ['inner_diameter', 'inside diameter', 'open', shape.innerMm, (innerMm) => ({ ...shape, innerMm })],
      ];
    case 'triangle':
      return [['side', 'side', 'cut', shape.sideMm, (sideMm) => ({ ...shape, sideMm })]];
    case 'outline':
      return [];
  }
}

function spacerSetting(design: Design, layer: Layer, index: number): readonly Setting[] {
  const { spacer } = layer;
  if (spacer === undefined) return [];
  const put = (own: Layer['spacer']): Design => ({
    ...design,
    layers: replaced(design.layers, index, { ...layer, spacer: own }),
  });
  const words = `spacer under ${layer.name}`;
  const common = { words, setBy: 'spacer', unit: 'mm' } as const;
  const tolerance = (kind: 'metal' | 'nylon' | 'printed') =>
    spacerTolerance(design.tolerances, kind, spanMm(layer.shape));
  if (spacer.kind === 'printed') {
    return [
      {
        ...common,
        path: `layer[${index}].spacer.printed`,
        nominal: spacer.heightMm,
        tolerance: tolerance('printed'),
        with: (heightMm) => put({ ...spacer, heightMm }),
      },
    ];
  }
  const item = spacer.spacer;
  return [
    {
      ...common,
      path: `layer[${index}].spacer`,
      nominal: item.bodyMm,
      tolerance: tolerance(item.material.conductivitySm > 0 ? 'metal' : 'nylon'),
      with: (bodyMm) => put({ kind: 'stock', spacer: { ...item, bodyMm } }),
    },
  ];
}

function buildSettings(design: Design, layer: Layer, index: number): readonly Setting[] {
  const { build } = layer;
  if (build.kind === 'on-reflector-board') return [];
  const put = (own: Layer['build']): Design => ({
    ...design,
    layers: replaced(design.layers, index, { ...layer, build: own }),
  });
  if (build.kind === 'sheet') {
    const { sheet } = build;
    return [
      {
        path: `layer[${index}].sheet`,
        words: `thickness of ${layer.name}`,
        setBy: 'stock',
        nominal: sheet.thicknessMm,
        unit: 'mm',
        tolerance: sheetTolerance(design.tolerances, sheet),
        with: (thicknessMm) => put({ kind: 'sheet', sheet: { ...sheet, thicknessMm } }),
      },
    ];
  }
  const { laminate } = build;
  return [
    {
      path: `layer[${index}].board`,
      words: `permittivity of the board of ${layer.name}`,
      setBy: 'stock',
      nominal: laminate.permittivity,
      unit: '',
      tolerance: permittivityTolerance(design.tolerances, laminate),
      with: (permittivity) => put({ ...build, laminate: { ...laminate, permittivity } }),
    },
  ];
}

function layerSettings(design: Design, index: number): readonly Setting[] {
  const layer = design.layers[index];
  if (layer === undefined) return [];
  const sizes = shapeSizes(layer.shape).map(
    ([key, words, setBy, mm, shape]): Setting => ({
      path: `layer[${index}].${key}`,
      words: `${words} of ${layer.name}`,
      setBy,
      nominal: mm,
      unit: 'mm',
      tolerance: cutTolerance(design.tolerances, layer.process),
      with: (value) => ({ ...design, layers: replaced(design.layers, index, { ...layer, shape: shape(value) }) }),
    }),
  );
  return [...sizes, ...spacerSetting(design, layer, index), ...buildSettings(design, layer, index)];
}

function feedSettings(design: Design): readonly Setting[] {
  const { feed, layers, tolerances } = design;
  const process = layers[0]?.process;
  if (process === undefined || feed.kind === 'edge') return [];
  const common = { unit: 'mm' } as const;
  if (feed.kind === 'probe') {
    const tolerance = drillTolerance(tolerances, process);
    return [
      {
        ...common,
        path: 'feed.from_edge',
        words: 'place of the pin from the edge',
        setBy: 'drill',
        nominal: feed.fromEdgeMm,
        tolerance,
        with: (fromEdgeMm) => ({ ...design, feed: { ...feed, fromEdgeMm } }),
      },
    ];
  }
  const tolerance = cutTolerance(tolerances, process);
  return [
    {
      ...common,
      path: 'feed.depth',
      words: 'depth of the inset',
      setBy: 'open',
      nominal: feed.depthMm,
      tolerance,
      with: (depthMm) => ({ ...design, feed: { ...feed, depthMm } }),
    },
    {
      ...common,
      path: 'feed.gap',
      words: 'gap of the inset',
      setBy: 'open',
      nominal: feed.gapMm,
      tolerance,
      with: (gapMm) => ({ ...design, feed: { ...feed, gapMm } }),
    },
  ];
}

type Joining = Exclude<Harness, { kind: 'none' }>;

function levelSettings(design: Design, harness: Joining, index: number): readonly Setting[] {
  const level = harness.levels[index];
  if (level === undefined) return [];
  const put = (own: RodLevel | StripLevel): Design => ({
    ...design,
    harness: { ...harness, levels: replaced<RodLevel | StripLevel>(harness.levels, index, own) } as Harness,
  });
  const path = `harness.level[${index}]`;
  const cut = cutTolerance(design.tolerances, harness.kind === 'strip' ? harness.process : design.reflector.process);
  const common = { unit: 'mm', setBy: 'cut' } as const;
  const { section } = level;
  const ofSection: readonly Setting[] =
    section === undefined
      ? []
      : [
          {
            ...common,
            path: `${path}.section.length`,
            words: `section of harness level ${index + 1}`,
            nominal: section.lengthMm,
            tolerance: cut,
            with: (lengthMm) => put({ ...level, section: { ...section, lengthMm } } as RodLevel | StripLevel),
          },
        ];
  const ofWidth: readonly Setting[] =
    'widthMm' in level
      ? [
          {
            ...common,
            path: `${path}.width`,
            words: `width of harness level ${index + 1}`,
            nominal: level.widthMm,
            tolerance: cut,
            with: (widthMm) => put({ ...level, widthMm }),
          },
        ]
      : [];
  return [...ofSection, ...ofWidth];
}

function harnessSettings(design: Design): readonly Setting[] {
  const { harness } = design;
  if (harness.kind === 'none') return [];
  const height: readonly Setting[] =
    harness.kind === 'microstrip'
      ? []
      : [
          {
            path: 'harness.height',
            words: 'height of the harness',
            setBy: 'bend',
            nominal: harness.heightMm,
            unit: 'mm',
            tolerance: bendTolerance(design.tolerances),
            with: (heightMm) => ({ ...design, harness: { ...harness, heightMm } }),
          },
        ];
  return [...height, ...harness.levels.flatMap((_, index) => levelSettings(design, harness, index))];
}

function boardSettings(design: Design): readonly Setting[] {
  const { material } = design.reflector;
  if (material.kind !== 'board') return [];
  const { laminate } = material;
  const put = (own: typeof laminate): Design => ({
    ...design,
    reflector: { ...design.reflector, material: { kind: 'board', laminate: own } },
  });
  return [
    {
      path: 'reflector.board',
      words: 'permittivity of the reflector board',
      setBy: 'stock',
      nominal: laminate.permittivity,
      unit: '',
      tolerance: permittivityTolerance(design.tolerances, laminate),
      with: (permittivity) => put({ ...laminate, permittivity }),
    },
    {
      path: 'reflector.board.thickness',
      words: 'thickness of the reflector board',
      setBy: 'stock',
      nominal: laminate.thicknessMm,
      unit: 'mm',
      tolerance: laminateTolerance(design.tolerances, laminate),
      with: (thicknessMm) => put({ ...laminate, thicknessMm }),
    },
  ];
}

function settings(design: Design): readonly Setting[] {
  return [
    ...design.layers.flatMap((_, index) => layerSettings(design, index)),
    ...feedSettings(design),
    ...harnessSettings(design),
    ...boardSettings(design),
  ];
}

/**
 * Every number of the design that moves its response and that a tool, a spacer or a supplier sets, from the first layer to the board.
 * The pieces of an array share them: a change stands for all elements at once.
 */
export function dimensionsOf(design: Design): readonly Dimension[] {
  return settings(design).map(({ with: _, ...dimension }) => dimension);
}

/**
 * The design with other values of its dimensions, by their paths, as built or as imagined: stock then has sizes that no shop sells.
 * The design is frozen but not checked again; `assemble` says when its parts no longer meet.
 * Throws RangeError for a path that `dimensionsOf` does not list and for a value that is not a positive number.
 */
export function withDimensions(design: Design, values: Readonly<Record<string, number>>): Design {
  let changed = design;
  for (const [path, value] of Object.entries(values)) {
    const setting = settings(changed).find((one) => one.path === path);
    if (setting === undefined) throw new RangeError(`the design has no dimension ${path}`);
    if (!(value > 0 && Number.isFinite(value))) throw new RangeError(`${path} must be positive, not ${value}`);
    changed = setting.with(value);
  }
  return deepFreeze(changed);
}
