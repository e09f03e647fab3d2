import { requireBetween, requireNotNegative, requirePositive } from '../require.ts';

/** One bell over the logarithm of the frequency: a exp(-((log10 f - b) / c)^2). */
type Bell = readonly [a: number, b: number, c: number];

interface Curve {
  readonly bells: readonly Bell[];
  /** The straight part: slope and offset. */
  readonly line: readonly [slope: number, offset: number];
}

/** Tables 1 to 4 of ITU-R P.838-3 (2005; memory, held to its own table 5 by the tests). */
const K_HORIZONTAL: Curve = {
  bells: [
    [-5.3398, -0.10008, 1.13098],
    [-0.35351, 1.2697, 0.454],
    [-0.23789, 0.86036, 0.15354],
    [-0.94158, 0.64552, 0.16817],
  ],
  line: [-0.18961, 0.71147],
};
const K_VERTICAL: Curve = {
  bells: [
    [-3.80595, 0.56934, 0.81061],
    [-3.44965, -0.22911, 0.51059],
    [-0.39902, 0.73042, 0.11899],
    [0.50167, 1.07319, 0.27195],
  ],
  line: [-0.16398, 0.63297],
};
const ALPHA_HORIZONTAL: Curve = {
  bells: [
    [-0.14318, 1.82442, -0.55187],
    [0.29591, 0.77564, 0.19822],
    [0.32177, 0.63773, 0.13164],
    [-5.3761, -0.9623, 1.47828],
    [16.1721, -3.2998, 3.4399],
  ],
  line: [0.67849, -1.95537],
};
const ALPHA_VERTICAL: Curve = {
  bells: [
    [-0.07771, 2.3384, -0.76284],
    [0.56727, 0.95545, 0.54039],
    [-0.20238, 1.1452, 0.26809],
    [-48.2991, 0.791669, 0.116226],
    [48.5833, 0.791459, 0.116479],
  ],
  line: [-0.053739, 0.83433],
};

function curveAt({ bells, line: [slope, offset] }: Curve, freqHz: number): number {
  const log = Math.log10(freqHz / 1e9);
  return bells.reduce((sum, [a, b, c]) => sum + a * Math.exp(-(((log - b) / c) ** 2)), slope * log + offset);
}

/** The coefficients k and alpha of rain at a frequency, for an electric field that lies level or stands upright (ITU-R P.838-3, equations 2 and 3). */
export function rainCoefficients(
  freqHz: number,
  field: 'horizontal' | 'vertical',
): { readonly k: number; readonly alpha: number } {
  requireBetween('freqHz', freqHz, { low: 1e9, high: 1000e9, inclusive: true });
  const upright = field === 'vertical';
  return {
    k: 10 ** curveAt(upright ? K_VERTICAL : K_HORIZONTAL, freqHz),
    alpha: curveAt(upright ? ALPHA_VERTICAL : ALPHA_HORIZONTAL, freqHz),
  };
}

/** Attenuation by rain, dB/km, k R^alpha for a rain rate R in mm/h (ITU-R P.838-3, equation 1); 1 to 1000 GHz. */
export function rainAttenuationDbPerKm(
  freqHz: number,
  rateMmPerHour: number,
  field: 'horizontal' | 'vertical',
): number {
  requireNotNegative({ rateMmPerHour });
  const { k, alpha } = rainCoefficients(freqHz, field);
  return k * rateMmPerHour ** alpha;
}

/**
 * Share of a path over which the rain of 0.01 % of the year counts in full: heavy rain falls in small cells, so it is below 1 on long paths
 * and, as the recommendation has it, to 2.5 on short ones (ITU-R P.530-17, section 2.4.1, equation 32; memory).
 */
export function rainPathFactor(distanceM: number, freqHz: number, rateMmPerHour: number, alpha: number): number {
  requirePositive({ distanceM, freqHz, rateMmPerHour, alpha });
  const [km, ghz] = [distanceM / 1000, freqHz / 1e9];
  const below =
    0.477 * km ** 0.633 * rateMmPerHour ** (0.073 * alpha) * ghz ** 0.123 - 10.579 * (1 - Math.exp(-0.024 * km));
  return below <= 1 / 2.5 ? 2.5 : 1 / below;
}
