import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Convex, halfExtents, symmetricHull } from './convex.ts';
import type { Slab } from './field-cells.ts';
import { heightField } from './height-field.ts';
import { meshBounds, meshFaults, signedVolume } from './mesh.ts';
import { bevelMm, halfFile, type JigPlan, planFor } from './stack-jig.ts';
import type { Obstacle, StackView } from './stack-view.ts';

const print = {
  process: 'filament',
  bedMm: { x: 220, y: 220 },
  holeAllowanceMm: 0.2,
  fitClearanceMm: 0.2,
  wallMm: 1.6,
  elephantFootMm: 0.4,
  springBackDeg: 3,
  bushingMm: undefined,
} as const;

const rectangle = (x: number, y: number): Convex => symmetricHull([{ x: x / 2, y: y / 2 }]);
const disc = (d: number): Convex =>
  Array.from({ length: 48 }, (_, i) => {
    const [angle, reach] = [((i + 0.5) * Math.PI) / 24, d / 2 / Math.cos(Math.PI / 48)];
    return { x: reach * Math.cos(angle), y: reach * Math.sin(angle) };
  });

function stackOf(outlines: readonly Convex[], more: Partial<StackView> = {}): StackView {
  const layers = outlines.map((outline, k) => ({ outline, undersideMm: 6.5 * k + 6, topMm: 6.5 * k + 6.5 }));
  const pitch = { x: Infinity, y: Infinity };
  return { layers, obstacles: [], feeds: [], coreRadiusMm: 3.2, pitch, ...more };
}

function planned(view: StackView): JigPlan {
  const plan = planFor(view, print);
  if (typeof plan === 'string') throw new Error(plan);
  return plan;
}

const outline = fc.oneof(
  fc
    .record({ x: fc.integer({ min: 130, max: 600 }), y: fc.integer({ min: 130, max: 600 }) })
    .map(({ x, y }) => rectangle(x / 10, y / 10)),
  fc.integer({ min: 130, max: 600 }).map((d) => disc(d / 10)),
  fc
    .record({
      x: fc.integer({ min: 90, max: 300 }),
      y: fc.integer({ min: 90, max: 300 }),
      cut: fc.integer({ min: 1, max: 25 }),
    })
    .map(({ x, y, cut }) =>
      symmetricHull([
        { x: x / 10, y: (y - cut) / 10 },
        { x: (x - cut) / 10, y: y / 10 },
      ]),
    ),
);
const bar = fc
  .record({
    y: fc.integer({ min: -300, max: 300 }),
    wide: fc.integer({ min: 5, max: 40 }),
    top: fc.integer({ min: 10, max: 40 }),
  })
  .map(
    ({ y, wide, top }): Obstacle => ({
      outline: [
        { x: -80, y: (y - wide) / 10 },
        { x: 80, y: (y - wide) / 10 },
        { x: 80, y: (y + wide) / 10 },
        { x: -80, y: (y + wide) / 10 },
      ],
      topMm: top / 10,
    }),
  );

describe('any stack', () => {
  const stacks = fc.record({
    outlines: fc.array(outline, { minLength: 1, maxLength: 4 }),
    obstacles: fc.array(bar, { maxLength: 3 }),
  });

  test('gives a closed half, or a reason', () => {
    let made = 0;
    fc.assert(
      fc.property(stacks, ({ outlines, obstacles }) => {
        const plan = planFor(stackOf(outlines, { obstacles }), print);
        if (typeof plan === 'string') return;
        made++;
        const facets = heightField(plan.slabs, bevelMm(print, plan.sizes));
        expect(meshFaults(facets)).toEqual([]);
        expect(signedVolume(facets) / expectedVolume(plan.slabs)).toBeCloseTo(1, 3);
      }),
      { seed: 43, numRuns: 150 },
    );
    expect(made).toBeGreaterThan(50);
  });

  test('is still closed in the file', () => {
    fc.assert(
      fc.property(stacks, ({ outlines, obstacles }) => {
        const plan = planFor(stackOf(outlines, { obstacles }), print);
        if (typeof plan !== 'string') expect(halfFile(plan, { print, revision: 'B2' }).files).toHaveLength(2);
      }),
      { seed: 44, numRuns: 12 },
    );
  });
});

/** Area under every face by its trapezia, times the slab, less the bevel's prism along the first one. */
function expectedVolume(slabs: readonly Slab[]): number {
  const whole = slabs.reduce((sum, slab) => {
    const area = slab.face.reduce((a, s) => a + ((s.to - s.from) * (s.fromHeight + s.toHeight)) / 2, 0);
    const lost = slab.openings.reduce((a, o) => a + openArea(slab, o), 0);
    return sum + (area - lost) * (slab.to - slab.from);
  }, 0);
  const [first] = slabs;
  const length = first === undefined ? 0 : lengthAlong(first);
  return whole - (length * print.elephantFootMm ** 2) / 2;
}

function openArea(slab: Slab, opening: { readonly from: number; readonly to: number }): number {
  return slab.face.reduce((sum, s) => {
    const [from, to] = [Math.max(s.from, opening.from), Math.min(s.to, opening.to)];
    if (to <= from) return sum;
    const middle = s.fromHeight + (((from + to) / 2 - s.from) / (s.to - s.from)) * (s.toHeight - s.fromHeight);
    return sum + (to - from) * middle;
  }, 0);
}

const lengthAlong = (slab: Slab): number =>
  slab.face.reduce((sum, s) => sum + s.to - s.from, 0) - slab.openings.reduce((sum, o) => sum + o.to - o.from, 0);

describe('a stack that narrows outward', () => {
  const plan = planned(stackOf([rectangle(26, 22), rectangle(22, 16), disc(16)]));

  test('gets the play asked for and a wall around its widest layer', () => {
    expect(plan.sizes.outerX).toBeCloseTo(13 + 0.2 + 2.4, 9);
    expect(plan.sizes.halfY).toBeCloseTo(11 + 0.2 + 2.4, 9);
  });

  test('carries every layer on ledges whose tops are the undersides', () => {
    const tops = plan.slabs.map((slab) => slab.to);
    for (const height of [6, 12.5, 19]) expect(tops).toContain(height);
  });

  test('has the size of its plan when printed', () => {
    const { low, high } = meshBounds(heightField(plan.slabs, bevelMm(print, plan.sizes)));
    expect([low[1], high[1]]).toEqual([0, 19.5 + 2]);
    expect(high[0] - low[0]).toBeCloseTo(2 * 13.6, 9);
  });
});

describe('between neighbours', () => {
  const outlines = [rectangle(26, 22), disc(16)];

  test('the wall gives way, then the jig is left out', () => {
    const wall = (pitch: number): number | string => {
      const plan = planFor(stackOf(outlines, { pitch: { x: pitch, y: 60 } }), print);
      return typeof plan === 'string' ? plan : plan.sizes.wallMm;
    };
    expect(wall(60)).toBe(2.4);
    // By hand: 29 − 26 between the wide patches, less two plays of 0.2 and the 1.2 (arm 1, play 0.2) to move aside.
    expect(wall(29)).toBeCloseTo(1.4, 9);
    expect(wall(28.3)).toMatch(/no room for a wall of 0.8 mm/);
  });

  test('a half fits beside the neighbour after it has moved aside', () => {
    for (const pitch of [32, 36, 40, 48]) {
      const plan = planFor(stackOf(outlines, { pitch: { x: pitch, y: 60 } }), print);
      if (typeof plan === 'string') continue;
      const { outerX, travelMm } = plan.sizes;
      expect(outerX + travelMm).toBeLessThanOrEqual(pitch - 13 - 0.2 + 1e-9);
    }
  });
});

describe('the foot', () => {
  const across = (y: number, topMm: number): Obstacle => ({
    outline: [
      { x: -40, y: y - 0.75 },
      { x: 40, y: y - 0.75 },
      { x: 40, y: y + 0.75 },
      { x: -40, y: y + 0.75 },
    ],
    topMm,
  });

  test('opens for a rod that crosses, on both sides, so that both halves are alike', () => {
    const { slabs } = planned(stackOf([rectangle(26, 22)], { obstacles: [across(-7, 3)] }));
    expect(slabs[0]?.to).toBeCloseTo(3.2, 9);
    const openings = slabs[0]?.openings ?? [];
    expect(openings).toHaveLength(2);
    for (const y of [-7.95, -7, -6.05, 6.05, 7, 7.95])
      expect(
        openings.some(({ from, to }) => from <= y && y <= to),
        `${y}`,
      ).toBe(true);
    expect(openings.some(({ from, to }) => from <= 0 && 0 <= to)).toBe(false);
  });

  test('is refused where a rod runs just under the patch, or everywhere', () => {
    expect(planFor(stackOf([rectangle(26, 22)], { obstacles: [across(-7, 5.2)] }), print)).toMatch(/too close under/);
    const everywhere = Array.from({ length: 40 }, (_, i) => across(i - 20, 3));
    expect(planFor(stackOf([rectangle(26, 22)], { obstacles: everywhere }), print)).toMatch(/feet would stand/);
  });
});

test('the arms leave the feed and its joint free', () => {
  const feeds = [{ at: { x: 0, y: -7 }, radiusMm: 3 }];
  const { sizes } = planned(stackOf([rectangle(26, 22)], { feeds }));
  expect(sizes.layers[0]?.reachX).toBeGreaterThanOrEqual(3 + 2);
});

test('a layer hardly larger than its spacer is not held', () => {
  expect(planFor(stackOf([rectangle(7, 7)]), print)).toMatch(/too small to rest/);
  expect(halfExtents(rectangle(7, 7))).toEqual({ x: 3.5, y: 3.5 });
});
