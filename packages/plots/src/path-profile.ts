import type { Figure } from '@sheetwave/drawings';
import type { Point } from '@sheetwave/geometry';
import type { PlotOptions } from './options.ts';
import { type PlotCurve, xyChart } from './xy-chart.ts';

/** The ground between two antennas and the room their wave needs. Metres; heights above one zero, the bulge of the earth added. */
export interface PathProfilePlot {
  readonly distanceM: number;
  readonly ends: {
    readonly near: { readonly name: string; readonly groundM: number; readonly heightM: number };
    readonly far: { readonly name: string; readonly groundM: number; readonly heightM: number };
  };
  /** Rising in `atM`, from 0 to the distance, close enough to show curves. */
  readonly points: readonly {
    readonly atM: number;
    readonly groundM: number;
    /** Top of what stands there, or the ground again. */
    readonly topM: number;
    /** The straight line between both antennas. */
    readonly lineM: number;
    /** Radius of the first Fresnel zone. */
    readonly zoneM: number;
  }[];
  /** Where the path is tightest. */
  readonly tightest?: { readonly atM: number; readonly label: string };
}

const HOLE: Point = { x: Number.NaN, y: Number.NaN };

/** Ground, obstacles, line of sight, first Fresnel zone and the 60 % of it that should stay clear. */
export function pathProfileChart(plot: PathProfilePlot, options: PlotOptions): Figure {
  const { distanceM, ends, points, tightest } = plot;
  const scale = distanceM >= 5000 ? { per: 1000, unit: 'km' } : { per: 1, unit: 'm' };
  const along = (metres: number) => metres / scale.per;
  const ring = (share: number): Point[] => {
    const edge = (side: 1 | -1) => points.map((p) => ({ x: along(p.atM), y: p.lineM + side * share * p.zoneM }));
    return [...edge(1), HOLE, ...edge(-1)];
  };
  const standing = points.filter(({ groundM, topM }) => topM > groundM);
  const upright = (x: number, from: number, to: number): Point[] => [{ x, y: from }, { x, y: to }, HOLE];
  const curves: PlotCurve[] = [
    {
      name: 'ground on the curved earth',
      points: points.map((p) => ({ x: along(p.atM), y: p.groundM })),
      look: 'broken',
      filled: true,
    },
    {
      name: 'obstacles',
      points: standing.flatMap((p) => upright(along(p.atM), p.groundM, p.topM)),
      look: 'diamonds',
      marksEach: true,
    },
    { name: 'line of sight', points: points.map((p) => ({ x: along(p.atM), y: p.lineM })), look: 'full' },
    { name: 'first Fresnel zone', points: ring(1), look: 'dashed' },
    { name: '60 % of it', points: ring(0.6), look: 'ringed' },
    {
      name: 'antennas',
      points: [
        ...upright(0, ends.near.groundM, ends.near.heightM),
        ...upright(along(distanceM), ends.far.groundM, ends.far.heightM),
      ],
      look: 'squared',
    },
  ];
  const heights = [
    ...points.flatMap((p) => [p.groundM, p.topM, p.lineM + p.zoneM, p.lineM - p.zoneM]),
    ends.near.heightM,
    ends.far.heightM,
  ];
  const [low, high] = heights.reduce(
    ([a, b], y) => [Math.min(a, y), Math.max(b, y)],
    [heights[0] ?? 0, heights[0] ?? 0],
  );
  const room = Math.max(0.06 * (high - low), 0.5);
  const beside = 0.03 * along(distanceM);
  return xyChart(
    {
      x: {
        label: `${ends.near.name} to ${ends.far.name}: distance, ${scale.unit}`,
        from: -beside,
        to: along(distanceM) + beside,
      },
      y: { label: 'height, m', from: low - room, to: high + room },
      curves: curves.filter((curve) => curve.points.length > 0),
      marks: tightest === undefined ? [] : [{ x: along(tightest.atM), label: tightest.label }],
    },
    { widthMm: 190, heightMm: 105, ...options },
  );
}
