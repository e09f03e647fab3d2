import { add, type Complex, complex, multiply, scale, subtract } from '@sheetwave/rf';
import { type ComplexMatrix, matrixOf, solveFromRight, solveMatrix } from '../complex-matrix.ts';
import type { Parameter } from './options.ts';

/*
 * With waves a and b at each port, voltage and current normalised to the reference are v = a + b and i = a - b, and every parameter says
 * that something linear in v and i is zero. Source: the definitions of waves and parameters (Pozar, Microwave Engineering, sec. 4.3;
 * memory), worked out below.
 */

const ONE = complex(1);
const ZERO = complex(0);
const unit = (row: number, column: number): Complex => (row === column ? ONE : ZERO);
const entry = (m: ComplexMatrix, row: number, column: number): Complex => m[row]?.[column] ?? ZERO;

/**
 * For H, v1 and i2 answer to i1 and v2; for G, i1 and v2 answer to v1 and i2; for Z every v answers to every i, for Y every i to every v.
 * True where a port is asked by its current and answers by its voltage.
 */
function askedByCurrent(parameter: Exclude<Parameter, 'S'>, port: number): boolean {
  if (parameter === 'Z') return true;
  if (parameter === 'Y') return false;
  return (parameter === 'H') === (port === 0);
}

/**
 * Scattering parameters from parameters normalised to the reference of each port; undefined when they have none.
 * Asked quantity q = a -+ b, answer r = a +- b with the upper sign for a port asked by its current. From r = M q:
 * a + D b = M (a - D b), so (1 + M) D b = (M - 1) a, with D = 1 for a port asked by current, -1 for one asked by voltage.
 */
export function scatteringOf(parameter: Parameter, m: ComplexMatrix): ComplexMatrix | undefined {
  if (parameter === 'S') return m;
  const size = m.length;
  const sum = matrixOf(size, (i, j) => add(unit(i, j), entry(m, i, j)));
  const difference = matrixOf(size, (i, j) => subtract(entry(m, i, j), unit(i, j)));
  const turned = solveMatrix(sum, difference);
  if (turned === undefined) return undefined;
  return matrixOf(size, (i, j) => scale(entry(turned, i, j), askedByCurrent(parameter, i) ? 1 : -1));
}

/** The other way: M = (1 + D S)(1 - D S)^-1, undefined when there is none (an open end has no impedance). */
export function parametersOf(parameter: Parameter, s: ComplexMatrix): ComplexMatrix | undefined {
  if (parameter === 'S') return s;
  const size = s.length;
  const turned = matrixOf(size, (i, j) => scale(entry(s, i, j), askedByCurrent(parameter, i) ? 1 : -1));
  const sum = matrixOf(size, (i, j) => add(unit(i, j), entry(turned, i, j)));
  const difference = matrixOf(size, (i, j) => subtract(unit(i, j), entry(turned, i, j)));
  return solveFromRight(difference, sum);
}

/**
 * Parameters in ohm, siemens or as ratios to parameters normalised to the reference of each port, real and above 0: V = sqrt(z) v,
 * I = i/sqrt(z). `direction` 1 normalises, -1 undoes it.
 */
export function normalised(
  parameter: Parameter,
  m: ComplexMatrix,
  ohms: readonly number[],
  direction: 1 | -1,
): ComplexMatrix {
  if (parameter === 'S') return m;
  const root = (port: number) => Math.sqrt(ohms[port] ?? Number.NaN);
  // The unit of an answer is sqrt(z) for a voltage and 1/sqrt(z) for a current; that of a question the same.
  const ofVoltage = (port: number) => root(port);
  const ofCurrent = (port: number) => 1 / root(port);
  return matrixOf(m.length, (i, j) => {
    const answer = askedByCurrent(parameter, i) ? ofVoltage(i) : ofCurrent(i);
    const asked = askedByCurrent(parameter, j) ? ofCurrent(j) : ofVoltage(j);
    return scale(entry(m, i, j), (asked / answer) ** direction);
  });
}

/**
 * Scattering parameters against other references: with P = (z + z')/(2 sqrt(z z')) and Q = (z - z')/(2 sqrt(z z')) of each port,
 * a' = P a + Q b and b' = Q a + P b, so S' = (Q + P S)(P + Q S)^-1. Undefined when there is none.
 */
export function renormalised(s: ComplexMatrix, from: readonly number[], to: number): ComplexMatrix | undefined {
  if (from.every((ohm) => ohm === to)) return s;
  const p = from.map((ohm) => complex((ohm + to) / (2 * Math.sqrt(ohm * to))));
  const q = from.map((ohm) => complex((ohm - to) / (2 * Math.sqrt(ohm * to))));
  const mixed = (own: readonly Complex[], other: readonly Complex[]) =>
    matrixOf(s.length, (i, j) => add(multiply(own[i] ?? ZERO, unit(i, j)), multiply(other[i] ?? ZERO, entry(s, i, j))));
  return solveFromRight(mixed(p, q), mixed(q, p));
}
