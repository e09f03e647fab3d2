import type { Cut, Turntable } from './read-turntable.ts';

/** What one cut says. Levels in dB against the highest reading. */
export interface CutFigures {
  readonly peakDeg: number;
  /** Half-power width, interpolated, degrees; undefined where the cut does not fall by 3 dB on both sides. */
  readonly beamwidthDeg: number | undefined;
  /** Middle of the half-power width, degrees. */
  readonly beamDeg: number | undefined;
  /** Main beam over the opposite direction; undefined when nothing was read there. */
  readonly frontToBackDb: number | undefined;
  /** The highest other lobe, below 0; undefined when there is none. */
  readonly sideLobe: { readonly angleDeg: number; readonly levelDb: number } | undefined;
  /** Largest gap between two readings, degrees. */
  readonly largestStepDeg: number;
}

/** 10 log10(2). */
const HALF_DB = 10 * Math.log10(2);
/** A lobe is one of its own when it rises this far above the dip before it, dB: more than readings flicker. */
const RISE_DB = 1;
/** Where a cut has a gap wider than this it is not closed, degrees. */
const WIDEST_GAP_DEG = 30;

/** The cut against its highest reading, 0 dB; the crossed polarisation against the same. */
export function normalised({ angleDeg, levelDb, crossDb }: Turntable): Turntable {
  const top = levelDb.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const below = (levels: readonly number[]) => levels.map((level) => level - top);
  return { angleDeg, levelDb: below(levelDb), crossDb: crossDb && below(crossDb) };
}

/** What a cut says of the crossed polarisation, dB against the highest reading of the wanted one; negative where it is weaker. */
export interface CrossFigures {
  /** In the direction of that highest reading. */
  readonly atPeakDb: number;
  /** Highest within the half-power width; undefined where the cut has none. */
  readonly inBeamDb: number | undefined;
  readonly highest: { readonly angleDeg: number; readonly levelDb: number };
}

/** Undefined for a cut without a crossed polarisation. */
export function crossFigures(cut: Turntable): CrossFigures | undefined {
  const { angleDeg, levelDb, crossDb } = normalised(cut);
  if (crossDb === undefined) return undefined;
  const { beamDeg, beamwidthDeg } = cutFigures(cut);
  const highest = crossDb.reduce((best, level, i) => (level > (crossDb[best] ?? level) ? i : best), 0);
  const inBeam = crossDb.filter(
    (_, i) =>
      beamDeg !== undefined &&
      beamwidthDeg !== undefined &&
      Math.abs(inTurn((angleDeg[i] ?? 0) - beamDeg)) <= beamwidthDeg / 2,
  );
  return {
    atPeakDb: crossDb[levelDb.indexOf(0)] ?? Number.NaN,
    inBeamDb: inBeam.length === 0 ? undefined : Math.max(...inBeam),
    highest: { angleDeg: angleDeg[highest] ?? Number.NaN, levelDb: crossDb[highest] ?? Number.NaN },
  };
}

/** Beam, width, back and lobes of a cut (definitions of IEEE Std 145; memory). */
export function cutFigures(cut: Cut): CutFigures {
  const { angleDeg, levelDb } = normalised({ ...cut, crossDb: undefined });
  const peak = levelDb.indexOf(0);
  const peakDeg = angleDeg[peak] ?? Number.NaN;
  const [right, left] = [walk(angleDeg, levelDb, peak, 1), walk(angleDeg, levelDb, peak, -1)];
  const [toRight, toLeft] = [halfPowerAt(right), halfPowerAt(left)];
  const isWhole = toRight !== undefined && toLeft !== undefined;
  const lobes = [lobeOf(right), lobeOf(left)].filter((lobe) => lobe !== undefined);
  const [lobe] = lobes.sort((a, b) => b.db - a.db);
  const back = levelOn(right, 180) ?? levelOn(left, 180);
  const steps = angleDeg.map((angle, i) => (angleDeg[i + 1] ?? (angleDeg[0] ?? 0) + 360) - angle);
  return {
    peakDeg,
    beamwidthDeg: isWhole ? toRight + toLeft : undefined,
    beamDeg: isWhole ? inTurn(peakDeg + (toRight - toLeft) / 2) : undefined,
    frontToBackDb: back === undefined ? undefined : -back,
    sideLobe:
      lobe === undefined ? undefined : { angleDeg: inTurn(peakDeg + lobe.sign * lobe.offDeg), levelDb: lobe.db },
    largestStepDeg: Math.max(...steps.slice(0, -1)),
  };
}

const inTurn = (deg: number): number => ((((deg + 180) % 360) + 360) % 360) - 180;

interface Step {
  /** Away from the peak, degrees, 0 and above, rising. */
  readonly offDeg: number;
  readonly db: number;
  readonly sign: 1 | -1;
}

/** The readings from the peak once around one way, up to the first gap. */
function walk(angleDeg: readonly number[], levelDb: readonly number[], peak: number, sign: 1 | -1): readonly Step[] {
  const count = angleDeg.length;
  const steps: Step[] = [];
  let before = 0;
  for (let n = 0; n < count; n += 1) {
    const i = (((peak + sign * n) % count) + count) % count;
    const offDeg = n === 0 ? 0 : (((sign * ((angleDeg[i] ?? 0) - (angleDeg[peak] ?? 0))) % 360) + 360) % 360;
    if (offDeg - before > WIDEST_GAP_DEG) break;
    before = offDeg;
    steps.push({ offDeg, db: levelDb[i] ?? Number.NaN, sign });
  }
  return steps;
}

function halfPowerAt(steps: readonly Step[]): number | undefined {
  const i = steps.findIndex(({ db }) => db < -HALF_DB);
  const [a, b] = [steps[i - 1], steps[i]];
  if (a === undefined || b === undefined) return undefined;
  return a.offDeg + ((b.offDeg - a.offDeg) * (a.db + HALF_DB)) / (a.db - b.db);
}

function levelOn(steps: readonly Step[], offDeg: number): number | undefined {
  const i = steps.findIndex((step) => step.offDeg >= offDeg);
  const [a, b] = [steps[i - 1], steps[i]];
  if (a === undefined || b === undefined) return undefined;
  return a.db + ((b.db - a.db) * (offDeg - a.offDeg)) / (b.offDeg - a.offDeg);
}

/** The highest reading within half a turn beyond the first dip. */
function lobeOf(steps: readonly Step[]): Step | undefined {
  let lowest = 0;
  let best: Step | undefined;
  for (const step of steps) {
    if (step.offDeg > 180) break;
    if (best === undefined && step.db < lowest) lowest = step.db;
    if (best === undefined ? lowest < -RISE_DB && step.db >= lowest + RISE_DB : step.db > best.db) best = step;
  }
  return best;
}
