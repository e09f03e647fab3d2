import { add, type Complex, complex, cosh, divide, multiply, scale, sinh } from './complex.ts';
import { requireNotNegative, requirePositive } from './require.ts';

/** Chain matrix: V1 = a V2 + b I2, I1 = c V2 + d I2, the second current outward (Pozar, Microwave Engineering, sec. 4.4). */
export interface TwoPort {
  readonly a: Complex;
  readonly b: Complex;
  readonly c: Complex;
  readonly d: Complex;
}

/** A length of line with a real impedance. ohm, m, 1/m. */
export interface LineSection {
  readonly z0Ohm: number;
  readonly lengthM: number;
  readonly gamma: Complex;
}

/** Chain matrix of a line: cosh, Z0 sinh, sinh/Z0, cosh of gamma l (Pozar, ibid., table 4.1). */
export function lineTwoPort({ z0Ohm, lengthM, gamma }: LineSection): TwoPort {
  requirePositive({ z0Ohm });
  requireNotNegative({ lengthM });
  const gl = scale(gamma, lengthM);
  const c = cosh(gl);
  const s = sinh(gl);
  return { a: c, b: scale(s, z0Ohm), c: scale(s, 1 / z0Ohm), d: c };
}

/** Chain matrix of an impedance in series. */
export const seriesTwoPort = (impedance: Complex): TwoPort => ({
  a: complex(1),
  b: impedance,
  c: complex(0),
  d: complex(1),
});

/** Chain matrix of an admittance across. */
export const shuntTwoPort = (admittance: Complex): TwoPort => ({
  a: complex(1),
  b: complex(0),
  c: admittance,
  d: complex(1),
});

/** First one port, then the next: the matrix product. */
export const cascade = (first: TwoPort, next: TwoPort): TwoPort => ({
  a: add(multiply(first.a, next.a), multiply(first.b, next.c)),
  b: add(multiply(first.a, next.b), multiply(first.b, next.d)),
  c: add(multiply(first.c, next.a), multiply(first.d, next.c)),
  d: add(multiply(first.c, next.b), multiply(first.d, next.d)),
});

/** Impedance (ohm) into a two-port that ends in `load`: (a Z + b)/(c Z + d). */
export const inputImpedance = (port: TwoPort, load: Complex): Complex =>
  divide(add(multiply(port.a, load), port.b), add(multiply(port.c, load), port.d));

/** Voltage at the load over the voltage at the input: 1/(a + b/Z), as Z/(a Z + b) so that a short gives 0. */
export const voltageTransfer = (port: TwoPort, load: Complex): Complex =>
  divide(load, add(multiply(port.a, load), port.b));
