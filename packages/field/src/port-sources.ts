import { type Complex, scale } from './complex.ts';
import { mirrorPattern } from './pattern.ts';
import type { MirroredPort } from './scene-mirror.ts';
import type { FarFieldResult } from './solution.ts';
import type { Symmetry } from './symmetry.ts';
import { AXES, type Axis } from './update.ts';

/** Which run answers for a port: its own, or that of a port whose mirror image it is. */
export interface PortSource {
  /** The port that is driven in the run. */
  readonly driven: number;
  /** The axes along which the answers of the run are mirrored. */
  readonly flips: readonly Axis[];
  /** Where each port lands. */
  readonly images: readonly MirroredPort[];
}

/** For each port its source, so that as few ports as possible are driven. `mirror: false` drives them all. */
export function portSources(count: number, symmetry: Symmetry, { mirror }: { readonly mirror: boolean }): PortSource[] {
  const all = mirror ? mirrorings(count, symmetry) : mirrorings(count, {});
  const sources: (PortSource | undefined)[] = Array.from({ length: count }, () => undefined);
  for (let driven = 0; driven < count; driven++) {
    if (sources[driven]) continue;
    for (const { flips, images } of all) {
      const port = images[driven]?.to ?? driven;
      sources[port] ??= { driven, flips, images };
    }
  }
  return sources.filter((source) => source !== undefined);
}

type Mirroring = Omit<PortSource, 'driven'>;

/** Nothing, then every combination of the planes in which ports change places. */
function mirrorings(count: number, symmetry: Symmetry): Mirroring[] {
  const none: Mirroring = { flips: [], images: Array.from({ length: count }, (_, to) => ({ to, sign: 1 as const })) };
  let all = [none];
  for (const axis of AXES) {
    const plane = symmetry[axis];
    if (plane?.kind !== 'ports') continue;
    all = all.concat(all.map((one) => mirrored(one, axis, plane.ports)));
  }
  return all;
}

const mirrored = ({ flips, images }: Mirroring, axis: Axis, ports: readonly MirroredPort[]): Mirroring => ({
  flips: [...flips, axis],
  images: images.map(({ to, sign }) => {
    const next = ports[to] ?? { to, sign: 1 };
    return { to: next.to, sign: sign === next.sign ? 1 : -1 };
  }),
});

/** The column of a port in the S matrix, from that of the driven one: the same waves between mirrored ports. */
export function mirrorColumn(column: readonly Complex[], { driven, images }: PortSource): Complex[] {
  const own = images[driven]?.sign ?? 1;
  const out = [...column];
  images.forEach(({ to, sign }, from) => {
    out[to] = scale(column[from] as Complex, own * sign);
  });
  return out;
}

/** The far field of a port, from that of the driven one. */
export function mirrorFarField(result: FarFieldResult, { flips }: PortSource, port: number): FarFieldResult {
  if (flips.length === 0) return result;
  const pattern = mirrorPattern(result.pattern, { flips, port });
  return { ...result, pattern, balance: { ...result.balance, port } };
}
