import { seededRandom } from './random.ts';

/** A box to search, and what to make small in it. */
export interface BoxSearch {
  readonly low: readonly number[];
  readonly high: readonly number[];
  readonly cost: (point: readonly number[]) => number;
  /** Points to begin with; clipped to the box. */
  readonly starts: readonly (readonly number[])[];
  readonly seed: number;
  /** Default 90. */
  readonly generations?: number;
}

interface Found {
  readonly point: readonly number[];
  readonly cost: number;
}

const clip = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/**
 * Smallest cost in a box, for costs of a few dozen microseconds with corners and several valleys: differential evolution (Storn and
 * Price, J. Global Optim. 11 (1997) 341, "rand/1/bin" with the best mixed in; F 0.6, CR 0.85), then a pattern search (Hooke and Jeeves,
 * J. ACM 8 (1961) 212). The same arguments give the same answer.
 */
export function searchBox(search: BoxSearch): Found {
  return polished(search, evolved(search));
}

function evolved({ low, high, cost, starts, seed, generations = 90 }: BoxSearch): Found {
  const random = seededRandom(seed);
  const size = low.length;
  const crowd = Math.max(16, 6 * size);
  const within = (point: readonly number[]) => point.map((value, i) => clip(value, low[i] ?? 0, high[i] ?? 0));
  const anywhere = () => low.map((value, i) => value + random() * ((high[i] ?? 0) - value));
  const members: Found[] = Array.from({ length: crowd }, (_, i) => {
    const start = starts[i];
    const point = start ? within(start) : anywhere();
    return { point, cost: cost(point) };
  });
  const pick = (): Found =>
    members[Math.floor(random() * crowd)] ?? { point: anywhere(), cost: Number.POSITIVE_INFINITY };
  for (let round = 0; round < generations; round++) {
    const best = members.reduce((a, b) => (b.cost < a.cost ? b : a));
    for (let k = 0; k < crowd; k++) {
      const own = members[k] ?? pick();
      const [a, b, c] = [pick(), pick(), pick()];
      const lead = random() < 0.35 ? best : a;
      const sure = Math.floor(random() * size);
      const point = within(
        own.point.map((value, i) =>
          i === sure || random() < 0.85 ? (lead.point[i] ?? 0) + 0.6 * ((b.point[i] ?? 0) - (c.point[i] ?? 0)) : value,
        ),
      );
      const found = cost(point);
      if (found <= own.cost) members[k] = { point, cost: found };
    }
  }
  return members.reduce((a, b) => (b.cost < a.cost ? b : a));
}

function polished({ low, high, cost }: BoxSearch, from: Found): Found {
  let best = from;
  for (let share = 0.05; share > 1e-4; share /= 2) {
    for (let improved = true; improved; ) {
      improved = false;
      for (let i = 0; i < low.length; i++) {
        for (const sign of [1, -1]) {
          const step = sign * share * ((high[i] ?? 0) - (low[i] ?? 0));
          const point = best.point.map((value, k) => (k === i ? clip(value + step, low[k] ?? 0, high[k] ?? 0) : value));
          const found = cost(point);
          if (found < best.cost - 1e-9) {
            best = { point, cost: found };
            improved = true;
          }
        }
      }
    }
  }
  return best;
}
