/** Speed of light in vacuum, m/s, exact (SI). */
export const SPEED_OF_LIGHT = 299_792_458;

/** Magnetic constant, H/m: 4 pi 1e-7, which the SI of 2019 keeps to ten digits. */
export const MAGNETIC_CONSTANT = 4e-7 * Math.PI;

/** Electric constant, F/m, 1/(mu0 c^2). */
export const ELECTRIC_CONSTANT = 1 / (MAGNETIC_CONSTANT * SPEED_OF_LIGHT ** 2);

/** Wave impedance of free space, ohm. */
export const FREE_SPACE_IMPEDANCE = MAGNETIC_CONSTANT * SPEED_OF_LIGHT;
