import type { GainCurve, Prediction } from '@sheetwave/predict';

/** What the gain of an antenna rests on. */
export type GainMethod = 'field solution' | 'closed forms';

interface GainPoint {
  readonly freqHz: number;
  /** In the main beam, losses counted and mismatch not, dBi. */
  readonly dbi: number;
  /** Power that comes back from the antenna instead of being sent, dB, 0 or above. */
  readonly mismatchDb: number;
}

/** The gain of an antenna over frequency. */
export interface AntennaGain {
  readonly method: GainMethod;
  /** Of a field solution: how fine its grid was. */
  readonly quality: Prediction['quality'] | undefined;
  /** Of a field solution: its error was stated by a second grid. */
  readonly meshChecked: boolean;
  /** In rising order, at least one; a single one holds for the whole band. */
  readonly points: readonly GainPoint[];
  /** How far the gain may be off, dB. */
  readonly errorDb: number;
  /** By which share of the frequency the curve may lie elsewhere. */
  readonly frequencyError: number;
}

/** The gain of a channel. dB. */
export interface ChannelGain {
  /** In the middle of the channel. */
  readonly dbi: number;
  /** Half the width in which it is expected anywhere in the channel. */
  readonly errorDb: number;
  readonly mismatchDb: number;
  readonly mismatchErrorDb: number;
}

/** What is read of a prediction. */
type Solved = Pick<Prediction, 'quality' | 'meshError'> & {
  readonly gains: readonly Pick<GainCurve, 'port' | 'freqHz' | 'gainDbi' | 'realisedGainDbi'>[];
  readonly response: { readonly error: Prediction['response']['error'] };
};

/** The closed forms give one gain, straight ahead, and no mismatch. */
export const estimatedAntennaGain = ({
  value,
  error,
}: {
  readonly value: number;
  readonly error: number;
}): AntennaGain => ({
  method: 'closed forms',
  quality: undefined,
  meshChecked: false,
  points: [{ freqHz: 0, dbi: value, mismatchDb: 0 }],
  errorDb: error,
  frequencyError: 0,
});

/** The gain that a field solution found at the coax; undefined for one without far fields. Throws when the solution does not state its error. */
export function predictedAntennaGain({ gains, response, quality, meshError }: Solved): AntennaGain | undefined {
  const own = gains.find(({ port }) => port === 0);
  if (own === undefined || own.freqHz.length === 0) return undefined;
  const points = own.freqHz.map((freqHz, n): GainPoint => {
    const dbi = own.gainDbi[n] ?? Number.NaN;
    return { freqHz, dbi, mismatchDb: dbi - (own.realisedGainDbi[n] ?? Number.NaN) };
  });
  const { gainDb, frequency = 0 } = response.error;
  if (gainDb === undefined) throw new Error('a prediction states the error of its gain');
  return {
    method: 'field solution',
    quality,
    meshChecked: meshError !== undefined,
    points,
    errorDb: gainDb,
    frequencyError: frequency,
  };
}

/**
 * The gain in the middle of a channel, straight lines between what is known and the nearest value outside. What it changes by over
 * the channel, and over the doubt about its place along the frequency, is added to its error.
 */
export function channelGain(gain: AntennaGain, lowHz: number, highHz: number): ChannelGain {
  const middle = at(gain, (lowHz + highHz) / 2);
  const reach = [lowHz * (1 - gain.frequencyError), highHz * (1 + gain.frequencyError)] as const;
  const inside = gain.points.filter(({ freqHz }) => freqHz > reach[0] && freqHz < reach[1]);
  const around = [at(gain, reach[0]), at(gain, reach[1]), ...inside];
  const spread = (key: 'dbi' | 'mismatchDb') => Math.max(...around.map((point) => Math.abs(point[key] - middle[key])));
  return {
    dbi: middle.dbi,
    errorDb: gain.errorDb + spread('dbi'),
    mismatchDb: middle.mismatchDb,
    mismatchErrorDb: spread('mismatchDb'),
  };
}

function at({ points }: AntennaGain, freqHz: number): GainPoint {
  const after = points.findIndex((point) => point.freqHz >= freqHz);
  const [below, above] = after < 0 ? [points.at(-1), undefined] : [points[after - 1], points[after]];
  if (below === undefined || above === undefined) {
    const nearest = below ?? above;
    if (nearest === undefined) throw new Error('a gain has a point');
    return nearest;
  }
  const share = (freqHz - below.freqHz) / (above.freqHz - below.freqHz);
  return {
    freqHz,
    dbi: below.dbi + share * (above.dbi - below.dbi),
    mismatchDb: below.mismatchDb + share * (above.mismatchDb - below.mismatchDb),
  };
}
