/** How far a run has come: what a progress bar needs. */
export interface Progress {
  /** Steps done. */
  readonly step: number;
  /** Steps in all, estimated from the decay so far. */
  readonly steps: number;
  /** Energy of the fields, dB of its highest value. */
  readonly energyDb: number;
  /** Part of the run that is done, 0 to 1; never falls, and is 1 at the end only. */
  readonly fraction: number;
}

export interface ProgressLimits {
  /** Step after which nothing is driven; no run ends before. */
  readonly silent: number;
  /** Energy at which the run ends, dB. */
  readonly stopDb: number;
  /** Steps of a run whose decay is not known yet. */
  readonly usual: number;
  readonly most: number;
}

/** Looks back over which the decay is taken. */
const LOOKS = 6;

/** dB, below which the fields are taken to die away. */
const FALLING_DB = -3;

/** A ringing loses the same number of dB in each step: the latest looks at the energy tell how many are to come. */
export function progressWatch(limits: ProgressLimits): (step: number, energyDb: number) => Progress {
  const looks: { step: number; energyDb: number }[] = [];
  let fraction = 0;
  return (step, energyDb) => {
    if (energyDb < FALLING_DB) looks.push({ step, energyDb });
    const before = looks[Math.max(0, looks.length - LOOKS)];
    const fall = before && step > before.step ? (before.energyDb - energyDb) / (step - before.step) : 0;
    const wanted = fall > 0 ? step + (energyDb - limits.stopDb) / fall : limits.usual;
    const steps = Math.min(limits.most, Math.max(step, limits.silent, Math.ceil(wanted)));
    fraction = Math.max(fraction, Math.min(0.99, step / steps));
    return { step, steps, energyDb, fraction };
  };
}
