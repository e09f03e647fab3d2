/** A wish of the mesher at one place of an axis. Lengths in m. */
export interface Seed {
  readonly at: number;
  /** Largest cell wanted here. */
  readonly size: number;
  /** `firm`: a line lies exactly here. `soft`: a line lies here or near by. `none`: the seed only sets a size. */
  readonly line: 'firm' | 'soft' | 'none';
  /** m: no soft line and no smaller cell within this distance. */
  readonly clear?: number;
  /** The size holds from `at` to here; default: at the one place. */
  readonly until?: number;
}

export interface LineRequest {
  readonly low: number;
  readonly high: number;
  readonly seeds: readonly Seed[];
  /** Largest cell anywhere. */
  readonly largest: number;
  /** Largest ratio of neighbouring cells. */
  readonly growth: number;
}

/**
 * Grid lines along one axis: through every seed that asks for a line, with cells that are nowhere larger than the seeds
 * around allow, growing away from them by no more than the ratio. Lines that would lie closer than half of the wanted
 * cell are joined into their mean: sub-cell factors know where the edges are.
 */
export function gridLines(request: LineRequest): Float64Array {
  const fixed = joinLines(request);
  // Two fixed lines may lie closer than anybody asked: the cells around must grow from there too.
  const narrow = fixed.slice(1).map((to, n): Seed => {
    const from = fixed[n] as number;
    return { at: from, until: to, size: to - from, line: 'none' };
  });
  const graded = { ...request, seeds: [...request.seeds, ...narrow] };
  const lines: number[] = [fixed[0] as number];
  for (let n = 1; n < fixed.length; n++) lines.push(...fill(graded, fixed[n - 1] as number, fixed[n] as number));
  return Float64Array.from(lines);
}

/** By which the cell may grow, per unit of distance. */
const slopeOf = (growth: number) => (growth - 1) / ((1 + growth) / 2);

/** Largest cell allowed at a place: a size grows by (growth - 1) per unit of distance from its seed. */
function sizeAt({ seeds, largest, growth }: LineRequest, place: number): number {
  const slope = slopeOf(growth);
  const wanted = seeds.reduce((size, seed) => {
    const beyond = Math.max(seed.at - place, place - (seed.until ?? seed.at), 0);
    return Math.min(size, seed.size + slope * beyond);
  }, largest);
  // The room beside a thick wire comes first; from its rim on cells shrink back to what was wanted.
  return seeds.reduce((size, { at, clear }) => {
    if (clear === undefined) return size;
    const room = clear - slope * Math.max(0, Math.abs(place - at) - clear);
    return Math.max(size, Math.min(room, largest));
  }, wanted);
}

const isClear = (place: number, seeds: readonly Seed[]) =>
  seeds.every(({ at, clear = 0 }) => Math.abs(place - at) >= clear);

function joinLines(request: LineRequest): number[] {
  const { low, high } = request;
  const inside = request.seeds
    .filter((seed) => seed.line !== 'none' && seed.at >= low && seed.at <= high)
    .filter((seed) => seed.line === 'firm' || (isClear(seed.at, request.seeds) && !isBesideFirm(request, seed.at)));
  const ends: Seed[] = [low, high].map((at) => ({ at, size: Number.POSITIVE_INFINITY, line: 'firm' }));
  const sorted = [...ends, ...inside].sort((a, b) => a.at - b.at);
  const groups: Seed[][] = [];
  for (const seed of sorted) {
    const group = groups.at(-1);
    const first = group?.[0];
    if (group && first && seed.at - first.at <= TOO_CLOSE * sizeAt(request, seed.at)) group.push(seed);
    else groups.push([seed]);
  }
  const inner = groups.flatMap(placesOfGroup).filter((at) => at - low > SAME_PLACE && high - at > SAME_PLACE);
  return [low, ...inner, high];
}

/** Of the wanted cell. Two edges that near each other would shorten the time step of the whole grid. */
const TOO_CLOSE = 0.55;

/** A soft line would make a sliver of a cell beside a firm one; sub-cell factors do without it. */
function isBesideFirm(request: LineRequest, place: number): boolean {
  const near = 0.75 * sizeAt(request, place);
  return request.seeds.some(({ line, at }) => line === 'firm' && Math.abs(at - place) < near);
}

/** Of lines that lie too close together: all the firm ones, or else one in the middle. */
function placesOfGroup(group: readonly Seed[]): number[] {
  const firm = group.filter((seed) => seed.line === 'firm').map((seed) => seed.at);
  const apart = firm.filter((at, n) => n === 0 || at - (firm[n - 1] as number) > SAME_PLACE);
  if (apart.length > 0) return apart;
  return [group.reduce((sum, seed) => sum + seed.at, 0) / group.length];
}

/** m: places closer than this are one. */
const SAME_PLACE = 1e-9;

const SAMPLES = 400;
const STRETCH = 0.08;

/** The seeds that can make a cell between two places smaller or larger, each once. */
function seedsWithin({ seeds, largest, growth }: LineRequest, from: number, to: number): Seed[] {
  const slope = slopeOf(growth);
  const near = seeds.filter(({ at, until = at, size, clear }) => {
    const beyond = Math.max(at - to, from - until, 0);
    return clear !== undefined || size + slope * beyond < largest;
  });
  return [...new Map(near.map((seed) => [`${seed.at} ${seed.until} ${seed.size} ${seed.clear}`, seed])).values()];
}

/** The lines after `from` up to `to`: equal steps of the integral of 1/size, so that every cell follows the size. */
function fill(whole: LineRequest, from: number, to: number): number[] {
  const request = { ...whole, seeds: seedsWithin(whole, from, to) };
  const step = (to - from) / SAMPLES;
  const integral = new Float64Array(SAMPLES + 1);
  for (let n = 0; n < SAMPLES; n++) {
    integral[n + 1] = (integral[n] as number) + step / sizeAt(request, from + (n + 0.5) * step);
  }
  const total = integral[SAMPLES] as number;
  // A cell that is a twelfth longer than wanted costs less than one more of them.
  const cells = Math.max(1, Math.ceil(total - STRETCH));
  const lines: number[] = [];
  let n = 0;
  for (let cell = 1; cell < cells; cell++) {
    const wanted = (total * cell) / cells;
    while ((integral[n + 1] as number) < wanted) n++;
    const [before, after] = [integral[n] as number, integral[n + 1] as number];
    lines.push(from + step * (n + (wanted - before) / (after - before)));
  }
  return [...lines, to];
}
