import type { Finding } from '@sheetwave/design';
import type { Assembly } from '../assembly.ts';
import { BoxGrid, grownBox } from '../box-grid.ts';
import { type Bounds, boundsOfPoints } from '../contour-measure.ts';
import { mm } from '../finding.ts';
import type { Point } from '../outline.ts';
import { apart, distanceToSegment } from '../reflector/obstacles.ts';
import { atOneHeight, harnessLines, type Line, type Post, probePosts, reflectorScrews, stackPosts } from './bodies.ts';
import { andMore, placedError, placedWarning } from './placed.ts';

/** Air that hand-bent rods and cut strips need beside something else, mm (common practice, no source). */
const AIR_MM = 0.5;

interface Meeting {
  readonly line: Pick<Line, 'part' | 'what'>;
  readonly post: Post;
  readonly airMm: number;
  readonly at: Point;
}

/** Harness and probes that touch a spacer, a screw head or a nut, in plan view by their radii, or come too near. */
export function touchFindings(assembly: Assembly): Finding[] {
  const posts = [...stackPosts(assembly), ...reflectorScrews(assembly)];
  const meetings = [...lineMeetings(harnessLines(assembly), posts), ...probeMeetings(assembly, posts)];
  const kinds = new Map<string, Meeting[]>();
  for (const one of meetings) {
    const kind = `${one.line.part} ${one.post.what}`;
    kinds.set(kind, [...(kinds.get(kind) ?? []), one]);
  }
  return [...[...kinds.values()].flatMap(worstFinding), ...gapFindings(assembly)];
}

function lineMeetings(lines: readonly Line[], posts: readonly Post[]): Meeting[] {
  const grid = gridOf(posts);
  return lines.flatMap((line) => {
    const reach = line.radiusMm + AIR_MM;
    return grid.near(grownBox(boundsOfPoints([line.from, line.to]), reach)).flatMap((post): Meeting[] => {
      if (!atOneHeight(line, post)) return [];
      const airMm = distanceToSegment(post.at, line) - line.radiusMm - post.radiusMm;
      return airMm < AIR_MM - 1e-9 ? [{ line, post, airMm, at: nearestOn(line, post.at) }] : [];
    });
  });
}

function probeMeetings(assembly: Assembly, posts: readonly Post[]): Meeting[] {
  const grid = gridOf(posts);
  return probePosts(assembly).flatMap((probe) => {
    const reach = probe.radiusMm + AIR_MM;
    return grid.near(grownBox(boundsOfPoints([probe.at]), reach)).flatMap((post): Meeting[] => {
      if (!atOneHeight(probe, post)) return [];
      const airMm = apart(probe.at, post.at) - probe.radiusMm - post.radiusMm;
      return airMm < AIR_MM - 1e-9 ? [{ line: probe, post, airMm, at: probe.at }] : [];
    });
  });
}

function gridOf(posts: readonly Post[]): BoxGrid<Post> {
  const grid = new BoxGrid<Post>(10);
  for (const post of posts) grid.add(boxOf(post), post);
  return grid;
}

const boxOf = ({ at, radiusMm }: Post): Bounds => grownBox(boundsOfPoints([at]), radiusMm);

function nearestOn({ from, to }: Line, point: Point): Point {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : ((point.x - from.x) * dx + (point.y - from.y) * dy) / squared;
  const t = Math.min(1, Math.max(0, along));
  return { x: from.x + t * dx, y: from.y + t * dy };
}

function worstFinding(meetings: readonly Meeting[]): Finding[] {
  const [worst] = [...meetings].sort((a, b) => a.airMm - b.airMm);
  if (worst === undefined) return [];
  const { line, post, airMm } = worst;
  const z = Math.max(0, (post.lowMm + post.highMm) / 2);
  const touches = airMm < 0;
  const short = post.metal ? 'and shorts it to the reflector' : 'and cannot both be there';
  const found = {
    code: touches ? 'harness-touches-post' : 'harness-near-post',
    path: post.part === 'reflector' ? 'reflector' : 'harness',
    value: `${line.what}${andMore(meetings.length)}`,
    allowed: touches
      ? `reaches ${mm(-airMm)} into ${post.what} ${short}`
      : `is ${mm(airMm)} from ${post.what}; ${mm(AIR_MM)} is the least that bending and cutting hold (common practice)`,
    remedy:
      post.part === 'reflector'
        ? `move the hole or the harness ${mm(AIR_MM - airMm)} apart`
        : `move them ${mm(AIR_MM - airMm)} apart: change the stems, the feed point or the spacer`,
    at: { ...worst.at, z },
    parts: [line.part, post.part],
  };
  return [touches ? placedError(found) : placedWarning(found)];
}

/** Little air between the harness and the reflector, or between it and the driven patch; touching is an error elsewhere. */
function gapFindings(assembly: Assembly): Finding[] {
  const { kind } = assembly.design.harness;
  if (kind !== 'rod' && kind !== 'strip') return [];
  const lines = harnessLines(assembly);
  const lowest = [...lines].sort((a, b) => a.lowMm - b.lowMm)[0];
  const highest = [...lines].sort((a, b) => b.highMm - a.highMm)[0];
  const ceiling = assembly.layerHeights[0]?.undersideMm ?? Number.POSITIVE_INFINITY;
  return [
    ...(lowest ? gapFinding(lowest, lowest.lowMm, 'the reflector') : []),
    ...(highest ? gapFinding(highest, ceiling - highest.highMm, 'the driven patch') : []),
  ];
}

function gapFinding(line: Line, airMm: number, other: string): Finding[] {
  if (airMm <= 0 || airMm >= AIR_MM - 1e-9) return [];
  const middle = { x: (line.from.x + line.to.x) / 2, y: (line.from.y + line.to.y) / 2 };
  return [
    placedWarning({
      code: 'harness-near-sheet',
      path: 'harness.height',
      value: line.what,
      allowed: `is ${mm(airMm)} from ${other}; sheets and rods are not straight to ${mm(AIR_MM)} (common practice)`,
      remedy: 'change harness.height, or use a longer first spacer',
      at: { ...middle, z: (line.lowMm + line.highMm) / 2 },
      parts: [line.part],
    }),
  ];
}
