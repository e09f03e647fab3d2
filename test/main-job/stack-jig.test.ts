import type { Design } from '@sheetwave/design';
import { emitStl } from '@sheetwave/emit-stl';
import type { Point } from '@sheetwave/geometry';
import { areaPathsD, booleanOpD, ClipType, EndType, FillRule, inflatePathsD, JoinType } from 'clipper2-ts';
import { describe, expect, test } from 'vitest';
import { jigDesigns, type Made } from './jig-designs.ts';
import { extent, type Facet, type Loop, readMesh, sectionAcrossY } from './stl-mesh.ts';

// A virtual assembly. The halves are cut at many heights and laid around the patches, whose places are worked out here by
// adding up the design; a general polygon library says what touches what (computed).

const DECIMALS = 6;
/** Smaller overlaps are rounding: single precision, and arcs drawn as polygons 0.01 mm outside. mm². */
const TOUCH = 1e-3;

type Paths = readonly Loop[];
const copy = (paths: Paths) => paths.map((loop) => loop.map(({ x, y }) => ({ x, y })));
const overlap = (a: Paths, b: Paths): number =>
  Math.abs(areaPathsD(booleanOpD(ClipType.Intersection, copy(a), copy(b), FillRule.NonZero, DECIMALS)));
const grow = (paths: Paths, by: number): Paths =>
  inflatePathsD(copy(paths), by, JoinType.Round, EndType.Polygon, 2, DECIMALS, 0.001);
const shift = (paths: Paths, x: number): Paths => paths.map((loop) => loop.map((p) => ({ x: p.x + x, y: p.y })));
const halfTurn = (paths: Paths): Paths => paths.map((loop) => loop.map((p) => ({ x: -p.x, y: -p.y })));
const disc = (at: Point, radius: number): Paths => [
  Array.from({ length: 96 }, (_, i) => ({
    x: at.x + radius * Math.cos((i * Math.PI) / 48),
    y: at.y + radius * Math.sin((i * Math.PI) / 48),
  })),
];

interface Layer {
  readonly underside: number;
  readonly top: number;
  readonly halfX: number;
  readonly halfY: number;
  readonly outline: Paths;
}

type Corners = Extract<Design['layers'][number]['shape'], { kind: 'rectangle' }>['corners'];

/** Counter-clockwise from the lower left, with its corners sharp, round or cut off by 45°. */
function rectangle({ halfX, halfY }: { readonly halfX: number; readonly halfY: number }, corners: Corners): Loop {
  const quarters = [
    { i: -1, j: -1, from: Math.PI, rising: true },
    { i: 1, j: -1, from: -Math.PI / 2, rising: false },
    { i: 1, j: 1, from: 0, rising: true },
    { i: -1, j: 1, from: Math.PI / 2, rising: false },
  ];
  return quarters.flatMap(({ i, j, from, rising }) => {
    const corner = { x: i * halfX, y: j * halfY };
    if (corners?.kind === 'round') {
      const [r, steps] = [corners.radiusMm, 12];
      return Array.from({ length: steps + 1 }, (_, k) => {
        const angle = from + (k / steps) * (Math.PI / 2);
        return { x: corner.x - i * r + r * Math.cos(angle), y: corner.y - j * r + r * Math.sin(angle) };
      });
    }
    if (corners === undefined || (corners.which !== 'all' && (corners.which === 'rising') !== rising)) return [corner];
    const [alongX, alongY] = [
      { x: corner.x - i * corners.sizeMm, y: corner.y },
      { x: corner.x, y: corner.y - j * corners.sizeMm },
    ];
    return i * j > 0 ? [alongY, alongX] : [alongX, alongY];
  });
}

/** Bodies and spacers added up from the reflector; length of a patch along y, as in a stack whose feed lies along y. */
function layersOf(design: Design): readonly Layer[] {
  let height = 0;
  return design.layers.flatMap(({ spacer, build, shape }) => {
    if (spacer === undefined) return [];
    const underside = height + (spacer.kind === 'printed' ? spacer.heightMm : spacer.spacer.bodyMm);
    const thick =
      build.kind === 'sheet'
        ? build.sheet.thicknessMm
        : build.kind === 'board'
          ? build.laminate.thicknessMm + build.laminate.copperMm
          : 0;
    const border = build.kind === 'board' ? build.borderMm : 0;
    if (shape.kind !== 'rectangle' && shape.kind !== 'circle')
      throw new Error(`no layer made here for a ${shape.kind}`);
    height = underside + thick;
    const [x, y] = shape.kind === 'circle' ? [shape.diameterMm, shape.diameterMm] : [shape.widthMm, shape.lengthMm];
    const [halfX, halfY] = [x / 2 + border, y / 2 + border];
    const corners = shape.kind === 'rectangle' && build.kind !== 'board' ? shape.corners : undefined;
    const outline: Paths =
      shape.kind === 'circle' ? disc({ x: 0, y: 0 }, halfX) : [rectangle({ halfX, halfY }, corners)];
    return [{ underside, top: height, halfX, halfY, outline }];
  });
}

/** Antenna coordinates about a stack, turned so that its feed lies along y. */
function local({ design }: Made, centre: Point, p: Point): Point {
  const [x, y] = [p.x - centre.x, p.y - centre.y];
  return design.lattice.orientation === 'vertical' ? { x, y } : { x: -y, y: x };
}

class Jig {
  readonly layers: readonly Layer[];
  readonly heightMm: number;
  readonly #facets: readonly Facet[];
  readonly #outerX: number;

  constructor(facets: readonly Facet[], made: Made) {
    this.#facets = facets;
    this.layers = layersOf(made.design);
    const [low, high] = extent(facets, 1);
    this.heightMm = high - low;
    const widest = this.layers.reduce((a, b) => (b.halfX > a.halfX ? b : a));
    // Pushed on until the play at the widest layer is what the design asks for; every other face must then be right.
    const wall = Math.max(...this.#heightsAt(0.0137, (widest.underside + widest.top) / 2));
    this.#outerX = wall + widest.halfX + made.design.print.fitClearanceMm;
  }

  /** Both halves at a height above the reflector: one on the left, the other the same piece turned by half. */
  at(z: number): { readonly left: Paths; readonly right: Paths } {
    const left = this.#section(z).map((loop) => loop.map(({ x, y }) => ({ x: y - this.#outerX, y: x })));
    return { left, right: halfTurn(left) };
  }

  get outerX(): number {
    return this.#outerX;
  }

  /** Heights to cut at: many, and none at a height of corners. */
  cuts(): readonly number[] {
    const count = 40;
    return Array.from({ length: count }, (_, i) => ((i + 0.5013) / count) * this.heightMm);
  }

  #section(z: number): Paths {
    return sectionAcrossY(this.#facets, z - this.heightMm / 2);
  }

  #heightsAt(x: number, z: number): readonly number[] {
    return this.#section(z).flatMap((loop) =>
      loop.flatMap((p, i) => {
        const q = loop[(i + 1) % loop.length] ?? p;
        return p.x < x !== q.x < x ? [p.y + ((x - p.x) / (q.x - p.x)) * (q.y - p.y)] : [];
      }),
    );
  }
}

const withJig = jigDesigns().flatMap((made) => {
  const file = emitStl(made.assembly).files.find(({ path }) => path === 'jigs/stack-jig-half.stl');
  return file === undefined ? [] : [{ ...made, jig: new Jig(readMesh(file.bytes).facets, made) }];
});

test('every stack of the designs here has a jig', () => {
  const stacked = jigDesigns().filter(({ design }) => design.layers.some((layer) => layer.spacer !== undefined));
  expect(stacked.length).toBeGreaterThanOrEqual(5);
  expect(withJig.map(({ name }) => name)).toEqual(stacked.map(({ name }) => name));
});

describe.each(withJig)('$name', (made) => {
  const { jig, design } = made;
  const play = design.print.fitClearanceMm;
  const middles = jig.layers.map((layer) => ({ layer, both: jig.at((layer.underside + layer.top) / 2) }));

  test('leaves every patch its play, and not more', () => {
    for (const { layer, both } of middles) {
      const all = [...both.left, ...both.right];
      expect(overlap(all, grow(layer.outline, play - 0.003))).toBeLessThan(TOUCH);
      // Along y an arc that ends 45° from x gives more: play / sin 45°.
      for (const [dx, dy] of [
        [play + 0.03, 0],
        [0, 1.4 * play + 0.03],
      ] as const) {
        const moved = layer.outline.map((loop) => loop.map((p) => ({ x: p.x + dx, y: p.y + dy })));
        expect(overlap(all, moved), 'a patch can be pushed no further than the play').toBeGreaterThan(2 * TOUCH);
      }
    }
  });

  test('carries every patch at its underside, near all four corners', () => {
    for (const layer of jig.layers) {
      const below = jig.at(layer.underside - 0.01);
      for (const half of [below.left, below.right])
        for (const side of [-1, 1]) {
          const quarter: Paths = [[0, 1, 1, 0].map((x, i) => ({ x: (x - 0.5) * 999, y: i < 2 ? 0 : side * 999 }))];
          const ledge = booleanOpD(ClipType.Intersection, copy(half), copy(layer.outline), FillRule.NonZero, DECIMALS);
          expect(overlap(ledge, quarter)).toBeGreaterThan(1);
        }
      const above = jig.at(layer.underside + 0.01);
      expect(overlap([...above.left, ...above.right], layer.outline)).toBeLessThan(TOUCH);
    }
  });

  test('leaves the spacers and the soldered feed free', () => {
    const round = design.layers.map(({ spacer }) =>
      spacer?.kind === 'printed' ? spacer.outerMm / 2 : (spacer?.spacer.acrossMm ?? 0) / 2 / Math.cos(Math.PI / 6),
    );
    const spacers = disc({ x: 0, y: 0 }, Math.max(...round));
    const radius = design.feed.kind === 'probe' ? design.feed.solderHoleMm / 2 + 1 : 0;
    const feeds = made.assembly.elements.map(({ centre, feedPoint }) => disc(local(made, centre, feedPoint), radius));
    for (const z of jig.cuts()) {
      const { left, right } = jig.at(z);
      expect(overlap([...left, ...right], spacers)).toBe(0);
      for (const feed of feeds) expect(overlap([...left, ...right], feed)).toBe(0);
    }
  });

  /** The thinnest conductor's top: below it every one is in the way. */
  const harnessTop = (): number => {
    const { harness } = design;
    if (harness.kind === 'strip') return harness.heightMm + harness.sheet.thicknessMm;
    const sizes = made.assembly.harness.flatMap((split) => split.arms.flat().map((run) => run.sizeMm));
    return harness.kind === 'rod' ? harness.heightMm + Math.min(...sizes) / 2 : 0;
  };

  /** Rods and strips near each stack, as bare rectangles. */
  const conductors = (): readonly Paths[] =>
    harnessTop() === 0
      ? []
      : made.assembly.elements.map(({ centre }) =>
          made.assembly.harness.flatMap((split) =>
            split.arms.flat().map((run) => {
              const [from, to] = [local(made, centre, run.from), local(made, centre, run.to)];
              const length = Math.hypot(to.x - from.x, to.y - from.y);
              const [nx, ny] = [
                (-(to.y - from.y) / length) * (run.sizeMm / 2),
                ((to.x - from.x) / length) * (run.sizeMm / 2),
              ];
              return [
                { x: from.x + nx, y: from.y + ny },
                { x: from.x - nx, y: from.y - ny },
                { x: to.x - nx, y: to.y - ny },
                { x: to.x + nx, y: to.y + ny },
              ];
            }),
          ),
        );

  /** Stops far enough out that the half can be lifted past every patch above each of its heights. */
  const liftingStop = (): number => {
    const free = (s: number): boolean =>
      jig.cuts().every((z) => {
        const left = shift(jig.at(z).left, -s);
        return jig.layers.every((layer) => layer.top < z || overlap(left, layer.outline) === 0);
      });
    for (let s = 0; s < 100; s += 0.5) if (free(s)) return s;
    throw new Error('a half can never be lifted off');
  };

  test('comes off sideways, past patches, spacers and harness, and can then be lifted clear', () => {
    const stop = liftingStop();
    const wires = conductors();
    for (const z of jig.cuts()) {
      const { left } = jig.at(z);
      const inTheWay = jig.layers.filter((layer) => layer.underside < z && z < layer.top);
      for (let s = 0; s <= stop; s += 0.5) {
        const moved = shift(left, -s);
        for (const layer of inTheWay) expect(overlap(moved, layer.outline)).toBeLessThan(TOUCH);
        if (z < harnessTop())
          for (const wire of wires) {
            expect(overlap(moved, wire)).toBe(0);
            expect(overlap(halfTurn(moved), wire)).toBe(0);
          }
      }
    }
  });

  test('touches no neighbouring stack, where it stands or where it is lifted', () => {
    const { rows, columns, rowPitchMm, columnPitchMm, orientation } = design.lattice;
    const pitches = [columns > 1 ? columnPitchMm : 1e4, rows > 1 ? rowPitchMm : 1e4] as const;
    const [across, along] = orientation === 'vertical' ? pitches : [pitches[1], pitches[0]];
    const widest = Math.max(...jig.layers.map((layer) => layer.halfX));
    const longest = Math.max(...jig.layers.map((layer) => layer.halfY));
    expect(jig.outerX + liftingStop() - 0.5).toBeLessThan(across - widest);
    const ends = jig.cuts().flatMap((z) =>
      jig
        .at(z)
        .left.flat()
        .map((p) => Math.abs(p.y)),
    );
    expect(Math.max(...ends)).toBeLessThan(along - longest);
  });
});
