/** Pseudo-random numbers in [0, 1), the same in every run (Park and Miller, CACM 31 (1988) 1195: x' = 16807 x mod 2^31-1). */
export function numbersFrom(seed: number): () => number {
  // Neighbouring seeds begin with neighbouring numbers, so the first few are thrown away.
  let x = (Math.abs(Math.trunc(seed)) % 2147483645) + 1;
  const next = () => {
    x = (16807 * x) % 2147483647;
    return x / 2147483647;
  };
  for (let i = 0; i < 4; i += 1) next();
  return next;
}

/** Choices drawn from one seed. */
export interface Random {
  /** In [0, 1). */
  readonly next: () => number;
  /** A whole number from `low` to `high`, both included. */
  readonly whole: (low: number, high: number) => number;
  readonly between: (low: number, high: number) => number;
  readonly chance: (share: number) => boolean;
  readonly pick: <T>(choices: readonly T[]) => T;
}

export function randomFrom(seed: number): Random {
  const next = numbersFrom(seed);
  const whole = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
  return {
    next,
    whole,
    between: (low, high) => low + next() * (high - low),
    chance: (share) => next() < share,
    pick: (choices) => choices[whole(0, choices.length - 1)] as (typeof choices)[number],
  };
}

/** Some entries of an object, each with the given chance. */
export function some(random: Random, share: number, entries: Readonly<Record<string, unknown>>) {
  return Object.fromEntries(Object.entries(entries).filter(() => random.chance(share)));
}
