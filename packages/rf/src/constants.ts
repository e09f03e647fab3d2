/** Speed of light in vacuum, m/s: exact by definition of the metre (SI Brochure, 9th edition, 2.3.1). */
export const SPEED_OF_LIGHT = 299_792_458;

/** Magnetic constant, H/m. The value before 2019, 4 pi 1e-7; the measured one differs by less than 1e-9 of it. */
export const MAGNETIC_CONSTANT = 4e-7 * Math.PI;

/** Electric constant, F/m, 1/(mu0 c^2). */
export const ELECTRIC_CONSTANT = 1 / (MAGNETIC_CONSTANT * SPEED_OF_LIGHT ** 2);

/** Wave impedance of free space, ohm, mu0 c = 376.7303. */
export const FREE_SPACE_IMPEDANCE = MAGNETIC_CONSTANT * SPEED_OF_LIGHT;

/** Decibels in one neper, 20 log10(e). */
export const DECIBELS_PER_NEPER = 20 * Math.LOG10E;

/** Wavelength in free space, m, of a frequency in Hz. */
export const wavelength = (freqHz: number): number => SPEED_OF_LIGHT / freqHz;

/** Wave number in free space, rad/m, of a frequency in Hz. */
export const waveNumber = (freqHz: number): number => (2 * Math.PI * freqHz) / SPEED_OF_LIGHT;

/** Ten times the decimal logarithm: a power ratio in dB. */
export const toDecibels = (powerRatio: number): number => 10 * Math.log10(powerRatio);
