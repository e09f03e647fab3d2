/**
 * Moves places along a line apart so that neighbours are at least `gap` apart, each as near as can be to where it wants to be
 * (least sum of squares), order kept. Input must be ascending. Pool-adjacent-violators on `wanted[i] - i * gap`
 * (Barlow et al., Statistical Inference under Order Restrictions, 1972: isotonic regression).
 */
export function spread(wanted: readonly number[], gap: number): readonly number[] {
  const pools: { sum: number; count: number }[] = [];
  wanted.forEach((value, index) => {
    let pool = { sum: value - index * gap, count: 1 };
    for (let before = pools.at(-1); before !== undefined && mean(before) > mean(pool); before = pools.at(-1)) {
      pools.pop();
      pool = { sum: before.sum + pool.sum, count: before.count + pool.count };
    }
    pools.push(pool);
  });
  const base = pools.flatMap((pool) => Array.from({ length: pool.count }, () => mean(pool)));
  return base.map((value, index) => value + index * gap);
}

const mean = (pool: { readonly sum: number; readonly count: number }): number => pool.sum / pool.count;

/** As `spread`, for places that each take `sizes[i]` of room, with `gap` between neighbours. */
export function spreadSized(wanted: readonly number[], sizes: readonly number[], gap: number): readonly number[] {
  // Distances between centres differ, so take the running sum of them out, spread with gap 0, and put it back.
  let offset = 0;
  const offsets = sizes.map((size, index) => {
    if (index > 0) offset += ((sizes[index - 1] ?? 0) + size) / 2 + gap;
    return offset;
  });
  const level = spread(
    wanted.map((value, index) => value - (offsets[index] ?? 0)),
    0,
  );
  return level.map((value, index) => value + (offsets[index] ?? 0));
}
