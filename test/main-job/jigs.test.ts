import { emitStl } from '@sheetwave/emit-stl';
import { areaPathsD, booleanOpD, ClipType, FillRule } from 'clipper2-ts';
import { describe, expect, test } from 'vitest';
import { exampleWith, jigDesigns, type Made, rodArray } from './jig-designs.ts';
import { extent, type Facet, type Loop, loopArea, readMesh, type Spot, sectionAcrossZ } from './stl-mesh.ts';

// Virtual assemblies: jigs are cut in slabs, parts are drawn here from the numbers of the design, and a general polygon
// library says what touches what (computed).

const TOUCH = 1e-3;
const copy = (paths: readonly Loop[]) => paths.map((loop) => loop.map(({ x, y }) => ({ x, y })));
const overlap = (a: readonly Loop[], b: readonly Loop[]): number =>
  Math.abs(areaPathsD(booleanOpD(ClipType.Intersection, copy(a), copy(b), FillRule.EvenOdd, 6)));
const disc = (at: Spot, radius: number): readonly Loop[] => [
  Array.from({ length: 720 }, (_, i) => ({
    x: at.x + radius * Math.cos((i * Math.PI) / 360),
    y: at.y + radius * Math.sin((i * Math.PI) / 360),
  })),
];
const box = (low: Spot, high: Spot): readonly Loop[] => [[low, { x: high.x, y: low.y }, high, { x: low.x, y: high.y }]];

const known = new Map<Made, ReturnType<typeof emitStl>>();
function emitted(made: Made): ReturnType<typeof emitStl> {
  const found = known.get(made) ?? emitStl(made.assembly);
  known.set(made, found);
  return found;
}

function fileOf(made: Made, path: string): readonly Facet[] {
  const file = emitted(made).files.find((each) => each.path === `jigs/${path}.stl`);
  if (file === undefined) throw new Error(`no ${path}`);
  return readMesh(file.bytes).facets;
}

const brass = exampleWith('brass-2x2-5g8', '');

/** Half width and half height of what is drilled, added up from the design. */
function halves({ design, assembly }: Made, id: string): Spot {
  if (id === 'reflector') return { x: assembly.reflector.widthMm / 2, y: assembly.reflector.heightMm / 2 };
  const shape = design.layers.find(({ name }) => `patch-${name}` === id)?.shape;
  if (shape?.kind === 'circle') return { x: shape.diameterMm / 2, y: shape.diameterMm / 2 };
  if (shape?.kind === 'rectangle') return { x: shape.widthMm / 2, y: shape.lengthMm / 2 };
  throw new Error(`what size is ${id}?`);
}

interface DrillJig {
  readonly title: string;
  readonly made: Made;
  readonly id: string;
  readonly facets: readonly Facet[];
}

const drillJigs: readonly DrillJig[] = [
  ...jigDesigns(),
  exampleWith('brass-2x2-5g8', '[print]\nprocess = "resin"\nbed = ["200 mm", "200 mm"]'),
].flatMap((made) =>
  emitted(made).files.flatMap(({ path, bytes, kind }) => {
    const id = /^jigs\/drill-(.*)\.stl$/.exec(path)?.[1];
    return id === undefined || kind !== 'jig-stl'
      ? []
      : [{ title: `${made.name}, ${made.design.print.process}: ${id}`, made, id, facets: readMesh(bytes).facets }];
  }),
);

test('there is a drilling jig for every plate that is cut by hand, and for no other', () => {
  for (const made of jigDesigns()) {
    const byHand = made.assembly.parts.flatMap((part) =>
      part.form === 'plate' && part.role !== 'strip' && part.process.id === 'hand' ? [part.id] : [],
    );
    expect(
      drillJigs.filter((jig) => jig.made.name === made.name && !jig.title.includes('resin')).map(({ id }) => id),
    ).toEqual(byHand);
  }
  expect(drillJigs.length).toBeGreaterThan(10);
});

/** A jig as the bench sees it, the blank pushed against both fences: coordinates of the blank, seen from in front. */
function seated({ made, id, facets }: DrillJig) {
  const [, top] = extent(facets, 2);
  const fences = sectionAcrossZ(facets, top - 0.5);
  const tall = fences.find((loop) => spread(loop, 'y') > spread(loop, 'x'));
  const level = fences.find((loop) => loop !== tall);
  if (tall === undefined || level === undefined) throw new Error('no two fences');
  // Printed in mirror image: the left fence is on the right, its inner face looks to the left.
  const [faceX, faceY] = [Math.min(...tall.map((p) => p.x)), Math.max(...level.map((p) => p.y))];
  const half = halves(made, id);
  const toBlank = ({ x, y }: Spot): Spot => ({ x: -half.x + (faceX - x), y: -half.y + (y - faceY) });
  return { half, top, at: (z: number) => sectionAcrossZ(facets, z).map((loop) => loop.map(toBlank)) };
}
const spread = (loop: Loop, axis: 'x' | 'y'): number =>
  Math.max(...loop.map((p) => p[axis])) - Math.min(...loop.map((p) => p[axis]));

describe.each(drillJigs)('$title', (jig) => {
  const { half, top, at } = seated(jig);
  const part = jig.made.assembly.parts.find(({ id }) => id === jig.id);
  const holes = part?.form === 'plate' ? part.outline.holes : [];

  test('has the axis of a bore within 0.01 mm of every hole, of its drill and the allowance', () => {
    const round = at(3.7).filter((loop) => loop.length === 64);
    expect(round).toHaveLength(holes.length);
    for (const { centre, diameterMm } of holes) {
      const bores = round.map((loop) => ({
        loop,
        x: loop.reduce((sum, p) => sum + p.x, 0) / loop.length,
        y: loop.reduce((sum, p) => sum + p.y, 0) / loop.length,
      }));
      const near = bores.find(({ x, y }) => Math.hypot(x - centre.x, y - centre.y) < 0.01);
      if (near === undefined) throw new Error(`no bore at ${centre.x}, ${centre.y}`);
      // Narrowest at the middle of a side.
      const narrowest = Math.min(
        ...near.loop.map((p, i) => {
          const q = near.loop[(i + 1) % near.loop.length] ?? p;
          return Math.hypot((p.x + q.x) / 2 - near.x, (p.y + q.y) / 2 - near.y);
        }),
      );
      expect(Math.abs(2 * narrowest - diameterMm - jig.made.design.print.holeAllowanceMm)).toBeLessThan(0.01);
    }
  });

  test('takes the blank against both fences, and lets it out upward', () => {
    const blank = box({ x: -half.x, y: -half.y }, half);
    const floor = Math.max(...levels(jig.facets).filter((z) => z < top - 1));
    for (const z of [floor + 0.01, (floor + top) / 2, top - 0.01]) {
      expect(overlap(at(z), blank)).toBeLessThan(TOUCH);
      for (const [dx, dy] of [
        [-0.02, 0],
        [0, -0.02],
      ] as const)
        expect(
          overlap(at(z), box({ x: -half.x + dx, y: -half.y + dy }, { x: half.x + dx, y: half.y + dy })),
        ).toBeGreaterThan(0.05);
    }
    // The plate lies under the whole blank but for bores and windows: no overlap is lost at its edges.
    expect(overlap(at(floor - 0.3), blank)).toBeGreaterThan(0.6 * 4 * half.x * half.y);
  });

  test('shows the blank at both fences, or says where there is no room', () => {
    const windows = at(3.7).filter((loop) => loop.length !== 64 && Math.abs(loopArea(loop)) < 40);
    const seen = [
      windows.some((loop) => loop.some(({ x }) => Math.abs(x + half.x) < 2e-3)),
      windows.some((loop) => loop.some(({ y }) => Math.abs(y + half.y) < 2e-3)),
    ].filter(Boolean).length;
    const said = emitted(jig.made).notes.filter((note) => note.includes(`jig of ${part?.name}: room for ${seen} of 2`));
    expect(seen === 2 || said.length === 1).toBe(true);
  });
});

const levels = (facets: readonly Facet[]): readonly number[] => [...new Set(facets.flat().map(([, , z]) => z))];

describe('bending jigs of the brass example', () => {
  // Rod of 1.5 mm, inside radius 1.5 mm: axis radius 2.25 mm. A leg, 40 mm between the probes, a leg (computed).
  const bent = brass.assembly.parts.find(({ id }) => id === 'rod-level-1');
  const [tip, corner] = bent?.form === 'rod' ? bent.corners : [];
  const straight = Math.abs((tip?.z ?? Number.NaN) - (corner?.z ?? Number.NaN)) - 2.25;
  const arc = (2.25 * Math.PI) / 2;
  const gauge = fileOf(brass, 'bend-gauge-rod-level-1');
  const [, top] = extent(gauge, 2);
  const [right] = [extent(gauge, 0)[1]];
  const [front] = [extent(gauge, 1)[0]];

  test('the gauge takes the rod with its play, and ends where the blank ends', () => {
    const body = sectionAcrossZ(gauge, top - 1);
    const groove = body.flat().filter(({ x, y }) => x < right - 1 && Math.abs(y - front) > 1 && y < front + 11);
    const stop = Math.min(...groove.map(({ x }) => x));
    const sides = groove.filter(({ x }) => x === stop).map(({ y }) => y);
    const [low, high] = [Math.min(...sides), Math.max(...sides)];
    expect(high - low).toBeCloseTo(1.5 + 2 * brass.design.print.fitClearanceMm, 3);
    expect(right - stop).toBeCloseTo(2 * straight + 2 * arc + 35.5, 2);
    // Rod along the groove, at any height: it drops in and lifts out.
    const middle = (low + high) / 2;
    const rod = box({ x: stop, y: middle - 0.75 }, { x: right, y: middle + 0.75 });
    for (const z of [3.05, 4, top - 0.7, top - 0.1]) expect(overlap(sectionAcrossZ(gauge, z), rod)).toBeLessThan(TOUCH);
    expect(overlap(sectionAcrossZ(gauge, 2.9), rod)).toBeGreaterThan(50);
  });

  test('its lines are where the bends begin', () => {
    const stop = right - (2 * straight + 2 * arc + 35.5);
    // Along the front rail, near its edge and off the numbers, every gap is a line.
    const y = front + 0.4;
    const crossings = sectionAcrossZ(gauge, top - 0.2)
      .flatMap((loop) =>
        loop.flatMap((p, i) => {
          const q = loop[(i + 1) % loop.length] ?? p;
          return p.y < y !== q.y < y ? [p.x + ((y - p.y) / (q.y - p.y)) * (q.x - p.x)] : [];
        }),
      )
      .sort((a, b) => a - b)
      .slice(1, -1);
    const lines = crossings.flatMap((x, i) => (i % 2 === 0 ? [(x + (crossings[i + 1] ?? Number.NaN)) / 2 - stop] : []));
    expect(lines).toHaveLength(2);
    // Each from the longer straight side: the first bend's far tangent point, the second one's near one.
    expect(lines[0]).toBeCloseTo(straight + arc, 2);
    expect(lines[1]).toBeCloseTo(straight + arc + 35.5, 2);
    const at = bent?.form === 'rod' ? bent.bends.map(({ atMm }) => atMm) : [];
    expect((lines[0] ?? 0) - arc / 2).toBeCloseTo(at[0] ?? 0, 2);
    expect((lines[1] ?? 0) + arc / 2).toBeCloseTo(at[1] ?? 0, 2);
  });

  test('the block bends around its pin by the spring-back more, up to its ridge', () => {
    const block = fileOf(brass, 'bend-block-rod-level-1');
    const hole = sectionAcrossZ(block, 4).find((loop) => loop.length === 64) ?? [];
    const pin = { x: mean(hole.map((p) => p.x)), y: mean(hole.map((p) => p.y)) };
    // K = 93/90: r = 2.25 · 90/93 − 0.75 = 1.427 mm, the next thinner pin 2.8 mm (computed).
    const radius = 1.4;
    const standing = sectionAcrossZ(block, 8.75);
    const axis = pin.y - radius - 0.75;
    const straightRod = box({ x: pin.x - 12, y: axis - 0.75 }, { x: pin.x + 15, y: axis + 0.75 });
    expect(overlap(standing, straightRod)).toBeLessThan(TOUCH);
    const play = brass.design.print.fitClearanceMm;
    for (const dy of [play + 0.02, -play - 0.02])
      expect(
        overlap(
          standing,
          straightRod.map((loop) => loop.map(({ x, y }) => ({ x, y: y + dy }))),
        ),
      ).toBeGreaterThan(0.1);
    // The lower rail ends where the bend begins, beside the pin's axis.
    const lowerRail = standing.find((loop) => loop.every(({ y }) => y < axis)) ?? [];
    expect(Math.max(...lowerRail.map(({ x }) => x))).toBeCloseTo(pin.x, 2);
    expect(overlap(standing, bentRod(pin, radius, 93 - 0.3))).toBeLessThan(TOUCH);
    expect(overlap(standing, bentRod(pin, radius, 93 + 0.5))).toBeGreaterThan(0.1);
  });
});

/** A rod of 1.5 mm tangent to a pin, seen past the bend, its inner side toward the pin. */
function bentRod(pin: Spot, radius: number, deg: number): readonly Loop[] {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const at = (along: number, out: number): Spot => ({ x: pin.x + along * c + out * s, y: pin.y + along * s - out * c });
  return [[at(0.5, radius), at(0.5, radius + 1.5), at(14, radius + 1.5), at(14, radius)]];
}
const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

describe.each([
  { name: 'saddle-rod-1.50mm', made: brass, size: 1.5, axis: 2.1 },
  { name: 'saddle-tube-2.50mm', made: brass, size: 2.5, axis: 2.1 },
])('$name', ({ name, made, size, axis }) => {
  const facets = fileOf(made, name);
  const profile = sectionAcrossZ(facets, 1.3);
  const foot = Math.min(...profile.flat().map((p) => p.y));
  const ledge = foot + axis - size / 2;
  const post = Math.min(
    ...profile
      .flat()
      .filter(({ y }) => y > ledge + 1)
      .map((p) => p.x),
  );
  const play = made.design.print.fitClearanceMm;
  const seat = { x: post - play - size / 2, y: foot + axis };

  test('carries the conductor on the axis of the harness, with its play to the post', () => {
    expect(overlap(profile, disc(seat, size / 2))).toBeLessThan(TOUCH);
    expect(overlap(profile, disc({ x: seat.x, y: seat.y - 0.05 }, size / 2))).toBeGreaterThan(TOUCH);
    expect(overlap(profile, disc({ x: seat.x + play + 0.03, y: seat.y }, size / 2))).toBeGreaterThan(TOUCH);
  });

  test('is pulled out sideways, past the fixed conductor', () => {
    for (let s = 0; s < 2 * size + 5; s += 0.25)
      expect(overlap(profile, disc({ x: seat.x - s, y: seat.y }, size / 2))).toBeLessThan(TOUCH);
    expect(Math.min(...profile.flat().map((p) => p.x))).toBeGreaterThan(seat.x - size - 1);
  });
});

test('saddles of the strip example carry its underside', () => {
  const strip = exampleWith('strip-column-5g2', '');
  for (const size of [3, 5.5]) {
    const profile = sectionAcrossZ(fileOf(strip, `saddle-strip-${size.toFixed(2)}mm`), 1.3);
    const foot = Math.min(...profile.flat().map((p) => p.y));
    // Underside 2 mm above the reflector, strip 0.5 mm thick (from the design).
    const left = Math.min(...profile.flat().map((p) => p.x));
    const post = Math.min(
      ...profile
        .flat()
        .filter(({ y }) => y > foot + 3)
        .map((p) => p.x),
    );
    const at = (dx: number, dy: number) =>
      box({ x: post - 0.15 - size + dx, y: foot + 2 + dy }, { x: post - 0.15 + dx, y: foot + 2.5 + dy });
    expect(overlap(profile, at(0, 0))).toBeLessThan(TOUCH);
    expect(overlap(profile, at(0, -0.02))).toBeGreaterThan(TOUCH);
    expect(overlap(profile, at(0.17, 0))).toBeGreaterThan(TOUCH);
    expect(left).toBeLessThan(post - 0.15 - size);
  }
});

describe('an array of 16 by 16', () => {
  const big = rodArray(16);
  const started = process.cpuUsage();
  const { files, notes } = emitted(big);
  const spent = process.cpuUsage(started);

  test('has no more jigs than kinds of parts, in seconds', () => {
    expect(big.assembly.elements).toHaveLength(256);
    expect(files.length).toBeLessThan(60);
    expect((spent.user + spent.system) / 1e6).toBeLessThan(60);
    // Larger than the bed: said with numbers.
    expect(notes.join('\n')).toMatch(
      /drilling jig of reflector: one for the whole would be [\d.]+ x [\d.]+ mm, more than the bed of 220 x 220 mm/,
    );
    expect(notes.join('\n')).toMatch(/do not reach \d+ holes/);
  });

  test('every jig fits the bed', () => {
    for (const { path, bytes } of files.filter(({ kind }) => kind === 'jig-stl')) {
      const mesh = readMesh(bytes).facets;
      for (const axis of [0, 1] as const) {
        const [low, high] = extent(mesh, axis);
        expect(high - low, path).toBeLessThanOrEqual(220.001);
      }
    }
  });

  test('the step jig has its bores one pitch of 40 mm apart', () => {
    const step = fileOf(big, 'drill-reflector-step');
    const bores = sectionAcrossZ(step, 3).filter((loop) => loop.length === 64);
    const centres = bores.map((loop) => ({ x: mean(loop.map((p) => p.x)), y: mean(loop.map((p) => p.y)) }));
    expect(centres).toHaveLength(4);
    expect(spread(centres, 'x')).toBeCloseTo(40, 2);
    expect(spread(centres, 'y')).toBeCloseTo(40, 2);
  });

  test('the corner jig has its bores where the reflector has its holes', () => {
    const corner = fileOf(big, 'drill-reflector-corner');
    const { at } = seated({ title: '', made: big, id: 'reflector', facets: corner });
    const holes = big.assembly.parts.flatMap((part) =>
      part.id === 'reflector' && part.form === 'plate' ? part.outline.holes : [],
    );
    const bores = at(3.7).filter((loop) => loop.length === 64);
    expect(bores.length).toBeGreaterThan(9);
    for (const loop of bores) {
      const centre = { x: mean(loop.map((p) => p.x)), y: mean(loop.map((p) => p.y)) };
      expect(
        Math.min(...holes.map((hole) => Math.hypot(hole.centre.x - centre.x, hole.centre.y - centre.y))),
      ).toBeLessThan(0.01);
    }
  });
});

describe('what the builder may choose', () => {
  const sizesOf = (made: Made, path: string) =>
    sectionAcrossZ(fileOf(made, path), 3.7)
      .filter((loop) => loop.length === 64)
      .map((loop) => 2 * Math.sqrt(-loopArea(loop) / Math.PI))
      .sort((a, b) => a - b);

  test('bushings: bores take their outside where the drill fits them', () => {
    const made = exampleWith('brass-2x2-5g8', '[print]\nbushing = "5 mm"', 'start.toml');
    const notes = emitted(made).notes.join('\n');
    // A hole of 3.4 mm leaves a bushing of 5 mm a wall of 0.8 mm, one of 4.5 mm only 0.25 mm (computed).
    for (const size of sizesOf(made, 'drill-patch-first-parasitic')) expect(Math.abs(size - 5.2)).toBeLessThan(0.02);
    expect(sizesOf(made, 'drill-reflector').filter((size) => Math.abs(size - 4.7) < 0.02)).toHaveLength(4);
    expect(notes).toMatch(/a drill of 4.5 mm goes through the print itself/);
    // The two holes of the driven patch are 5.8 mm apart: bushings of 5 mm leave no web.
    expect(notes).toMatch(/jig of driven patch: bushings of 5 mm would meet/);
    expect(sizesOf(made, 'drill-patch-driven').map((size) => size.toFixed(1))).toEqual(['1.9', '3.6']);
  });

  test('no spring-back: the ridge stands at the angle itself', () => {
    const made = exampleWith('brass-2x2-5g8', '[print]\nspring_back = "0 deg"');
    const block = fileOf(made, 'bend-block-rod-level-1');
    const hole = sectionAcrossZ(block, 4).find((loop) => loop.length === 64) ?? [];
    const pin = { x: mean(hole.map((p) => p.x)), y: mean(hole.map((p) => p.y)) };
    expect(overlap(sectionAcrossZ(block, 8.75), bentRod(pin, 1.5, 89.7))).toBeLessThan(TOUCH);
    expect(overlap(sectionAcrossZ(block, 8.75), bentRod(pin, 1.5, 90.5))).toBeGreaterThan(0.1);
  });

  test('a bed of 100 mm: the reflector is drilled from its corner and on by steps', () => {
    const made = exampleWith('brass-2x2-5g8', '[print]\nbed = ["100 mm", "100 mm"]');
    const { files, notes } = emitted(made);
    const paths = files.map(({ path }) => path);
    expect(paths).toContain('jigs/drill-reflector-corner.stl');
    expect(paths).not.toContain('jigs/drill-reflector.stl');
    // One of the four element holes lies within 100 mm of the corner; the step jig needs two.
    expect(notes.join('\n')).toMatch(/starts from two drilled holes, mark 1 of them/);
    expect(notes.join('\n')).toMatch(/would be [\d.]+ x [\d.]+ mm, more than the bed of 100 x 100 mm/);
  });

  test('edges on the bed are drawn in by what the first layers spread: 0.3 mm on each side', () => {
    for (const { kind, bytes, path } of emitted(brass).files) {
      if (kind !== 'jig-stl' || !/drill|bend|gauge/.test(path)) continue;
      const { facets } = readMesh(bytes);
      const onBed = facets.filter((facet) => facet.every(([, , z]) => z === 0));
      for (const axis of [0, 1] as const) {
        const [[low, high], [bedLow, bedHigh]] = [extent(facets, axis), extent(onBed, axis)];
        expect(high - low - (bedHigh - bedLow), path).toBeCloseTo(0.6, 2);
      }
    }
  });

  test('no elephant foot: edges on the bed are not bevelled', () => {
    const made = exampleWith('brass-2x2-5g8', '[print]\nelephant_foot = "0 mm"');
    for (const { kind, bytes, path } of emitted(made).files) {
      if (kind !== 'jig-stl') continue;
      const { facets } = readMesh(bytes);
      const onBed = facets.flat().filter(([, , z]) => z === 0);
      expect(Math.max(...onBed.map(([x]) => x)), path).toBeCloseTo(extent(facets, 0)[1], 4);
    }
  });
});
