import type { Finding } from '@sheetwave/design';
import type { Assembly } from '../assembly.ts';
import { BoxGrid, grownBox } from '../box-grid.ts';
import { boundsOfPoints } from '../contour-measure.ts';
import { mm } from '../finding.ts';
import type { Point } from '../outline.ts';
import { type FoldedEdge, foldedReflector } from '../reflector/folded.ts';
import { apart } from '../reflector/obstacles.ts';
import { reflectorUndersideMm } from '../stack-heights.ts';
import { type Post, reflectorScrews, stackPosts } from './bodies.ts';
import { andMore, placedError, placedWarning } from './placed.ts';

type Face = 'front' | 'back';

interface Blocked {
  readonly post: Post;
  readonly by: string;
  /** Air between the tool's circle and what is there; below 0. */
  readonly toolAirMm: number;
  /** Air between the nut or head itself and what is there. */
  readonly bodyAirMm: number;
}

/** Nuts and screw heads that no spanner or driver reaches: coax, another nut or a folded edge is inside the tool's circle. */
export function toolFindings(assembly: Assembly): Finding[] {
  const turned = stackPosts(assembly).filter(({ toolMm }) => toolMm > 0);
  const others = reflectorScrews(assembly);
  return (['back', 'front'] as const).flatMap((face) => {
    const posts = [...turned.filter((post) => faceOf(assembly, post) === face), ...others];
    const blocked = [
      ...(face === 'back' ? byCoax(assembly, posts) : []),
      ...byEdges(assembly, posts, face),
      ...byEachOther(posts),
    ];
    return worstOfEach(blocked, face);
  });
}

const faceOf = ({ design }: Assembly, post: Post): Face =>
  post.at.z < reflectorUndersideMm(design) - 1e-9 ? 'back' : 'front';

function byCoax({ design, coaxPoint }: Assembly, posts: readonly Post[]): Blocked[] {
  const { connector, coax, solderLandMm } = design.coax;
  const own = (post: Post): boolean => post.what === 'a screw of the connector flange';
  const panel = connector?.panel;
  // The body behind a flange is about two thirds of it wide (N: 16 mm of 25.4; common practice, no source).
  const radius = panel ? panel.flangeMm / 3 : Math.max(coax.jacketMm, solderLandMm) / 2;
  return posts.flatMap((post) => {
    if (own(post)) return [];
    return blockedBy(post, panel ? 'the connector' : 'the soldered coax', apart(post.at, coaxPoint) - radius);
  });
}

function byEdges(assembly: Assembly, posts: readonly Post[], face: Face): Blocked[] {
  const edges = foldedReflector(assembly)?.edges ?? [];
  if (assembly.design.reflector.fold?.direction !== face) return [];
  return posts.flatMap((post) =>
    edges.flatMap((edge) => blockedBy(post, `the folded edge on the ${edge.side}`, distanceToEdge(post.at, edge))),
  );
}

function distanceToEdge(point: Point, { from, to }: FoldedEdge): number {
  const dx = Math.max(from.x - point.x, 0, point.x - to.x);
  const dy = Math.max(from.y - point.y, 0, point.y - to.y);
  return Math.hypot(dx, dy);
}

function byEachOther(posts: readonly Post[]): Blocked[] {
  const grid = new BoxGrid<Post>(20);
  for (const post of posts) grid.add(grownBox(boundsOfPoints([post.at]), post.radiusMm), post);
  return posts.flatMap((post) =>
    grid
      .near(grownBox(boundsOfPoints([post.at]), post.toolMm))
      // Two screws of the reflector are too near each other only where their holes are, which is found there.
      .filter((other) => apart(other.at, post.at) > 1e-6 && !(other.part === 'reflector' && post.part === 'reflector'))
      .flatMap((other) => blockedBy(post, other.what, apart(post.at, other.at) - other.radiusMm)),
  );
}

function blockedBy(post: Post, by: string, freeMm: number): Blocked[] {
  if (freeMm >= post.toolMm - 1e-9) return [];
  return [{ post, by, toolAirMm: freeMm - post.toolMm, bodyAirMm: freeMm - post.radiusMm }];
}

function worstOfEach(blocked: readonly Blocked[], face: Face): Finding[] {
  const kinds = new Map<string, Blocked[]>();
  for (const one of blocked) {
    const kind = `${one.post.what} ${one.by}`;
    kinds.set(kind, [...(kinds.get(kind) ?? []), one]);
  }
  return [...kinds.values()].flatMap((list) => {
    const [worst] = [...list].sort((a, b) => a.toolAirMm - b.toolAirMm);
    return worst ? [finding(worst, face, list.length)] : [];
  });
}

function finding({ post, by, toolAirMm, bodyAirMm }: Blocked, face: Face, count: number): Finding {
  const about = {
    path: post.part === 'reflector' ? 'reflector' : 'hardware',
    value: `${post.what} on the ${face}${andMore(count)}`,
    at: post.at,
    parts: [post.part],
  };
  if (bodyAirMm < -1e-9)
    return placedError({
      ...about,
      code: 'parts-touch',
      allowed: `reaches ${mm(-bodyAirMm)} into ${by}`,
      remedy: `move them ${mm(-bodyAirMm)} apart, or use smaller ones`,
    });
  return placedWarning({
    ...about,
    code: 'no-room-for-tool',
    allowed: `has ${by} inside the circle of ${mm(2 * post.toolMm)} that its tool turns in`,
    remedy: `move them ${mm(-toolAirMm)} apart, or tighten it before the other is there`,
  });
}
