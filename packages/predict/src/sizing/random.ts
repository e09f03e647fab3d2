/** Numbers from 0 up to but not 1, always the same for the same seed. */
export type Random = () => number;

/**
 * A small generator with 32 bits of state: a Weyl sequence of step 0x6d2b79f5 through a mixing function of multiplications and shifts
 * (the splitmix family: Steele, Lea and Flood, OOPSLA 2014, section 4; constants of this 32-bit variant from memory). Period 2³²; good
 * for sampling tolerances, not for secrets.
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Of a normal distribution with mean 0 and variance 1 (Box and Muller, Ann. Math. Stat. 29 (1958) 610). */
export function normalRandom(random: Random): Random {
  return () => {
    // 1 - u is above 0, so that its logarithm is finite.
    const radius = Math.sqrt(-2 * Math.log(1 - random()));
    return radius * Math.cos(2 * Math.PI * random());
  };
}
