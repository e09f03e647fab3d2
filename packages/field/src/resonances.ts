import { add, type Complex, complex, expComplex, magnitude, multiply, naturalLog, scale } from './complex.ts';
import { type ComplexMatrix, eigenvalues, solveLinear, symmetricEigen } from './eigen.ts';

/** One damped oscillation amplitude * exp(s t); its complex conjugate belongs to it when the signal is real. */
export interface Pole {
  /** 1/s: real part -damping, imaginary part 2 pi f. */
  readonly s: Complex;
  readonly amplitude: Complex;
}

export interface PoleFit {
  readonly poles: readonly Pole[];
  /** Root-mean-square of what the poles leave, relative to the signal. */
  readonly residual: number;
}

/** Frequency, Hz, of a pole: where its oscillation turns. */
export const poleFrequency = ({ s }: Pole): number => Math.abs(s.im) / (2 * Math.PI);

/** Quality factor |s| / (2 |Re s|), infinite without loss. */
export const poleQuality = ({ s }: Pole): number => magnitude(s) / (2 * Math.abs(s.re));

export interface PencilOptions {
  /** s between samples. */
  readonly interval: number;
  /** Singular values below this part of the largest are noise. Default 1e-4. */
  readonly threshold?: number;
  /** Largest number of poles. Default 16. */
  readonly most?: number;
}

/**
 * The damped oscillations that make up a signal, by the matrix pencil of Y. Hua and T. K. Sarkar, IEEE Trans. ASSP-38
 * (1990) 814. Time 0 is the first sample. The signal should hold 100 to 400 samples, 6 to 12 in each period.
 */
export function fitPoles(signal: Float64Array, { interval, threshold = 1e-4, most = 16 }: PencilOptions): PoleFit {
  const roots = pencilRoots(signal, { threshold, most });
  const exponents = roots.map((z) => scale(naturalLog(z), 1 / interval)).filter((s) => Number.isFinite(s.re));
  return fitAmplitudes(signal, exponents, interval);
}

/** Amplitudes of given exponents by least squares, and what they leave. */
export function fitAmplitudes(signal: Float64Array, exponents: readonly Complex[], interval: number): PoleFit {
  const power = signal.reduce((sum, value) => sum + value * value, 0);
  if (exponents.length === 0 || power === 0) return { poles: [], residual: power === 0 ? 0 : 1 };
  const columns = exponents.map((s) => powers(expComplex(scale(s, interval)), signal.length));
  const normal: ComplexMatrix = columns.map((a) => columns.map((b) => innerProduct(a, b)));
  const right = columns.map((column) => innerProduct(column, signal));
  const trace = normal.reduce((sum, row, i) => sum + (row[i] as Complex).re, 0);
  normal.forEach((row, i) => {
    row[i] = add(row[i] as Complex, complex(1e-14 * trace));
  });
  const amplitudes = solveLinear(normal, right);
  let left = 0;
  for (let n = 0; n < signal.length; n++) {
    const fitted = columns.reduce((sum, column, m) => {
      const amplitude = amplitudes[m] as Complex;
      return sum + amplitude.re * (column.re[n] as number) - amplitude.im * (column.im[n] as number);
    }, 0);
    left += ((signal[n] as number) - fitted) ** 2;
  }
  const poles = exponents.map((s, m) => ({ s, amplitude: amplitudes[m] as Complex }));
  return { poles, residual: Math.sqrt(left / power) };
}

interface Column {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

function powers(z: Complex, count: number): Column {
  const column = { re: new Float64Array(count), im: new Float64Array(count) };
  let value = complex(1);
  for (let n = 0; n < count; n++) {
    column.re[n] = value.re;
    column.im[n] = value.im;
    value = multiply(value, z);
  }
  return column;
}

/** conj(a) . b, b complex or real. */
function innerProduct(a: Column, b: Column | Float64Array): Complex {
  let re = 0;
  let im = 0;
  const [bRe, bIm] = b instanceof Float64Array ? [b, undefined] : [b.re, b.im];
  for (let n = 0; n < bRe.length; n++) {
    const [p, q] = [a.re[n] as number, a.im[n] as number];
    const [x, y] = [bRe[n] as number, bIm ? (bIm[n] as number) : 0];
    re += p * x + q * y;
    im += p * y - q * x;
  }
  return complex(re, im);
}

/** Roots z of the signal: eigenvalues of the shift within the signal's own subspace. */
function pencilRoots(signal: Float64Array, { threshold, most }: { threshold: number; most: number }): Complex[] {
  const width = Math.min(90, Math.floor(signal.length / 2)) + 1;
  const { values, vectors } = symmetricEigen(covariance(signal, width));
  const largest = values[0] ?? 0;
  // Eigenvalues of the covariance are squares of singular values.
  const rank = Math.min(most, values.filter((value) => value > largest * threshold ** 2).length);
  if (rank === 0) return [];
  const basis = vectors.map((row) => row.slice(0, rank));
  const upper = basis.slice(0, -1);
  const lower = basis.slice(1);
  const gram = product(upper, upper, rank);
  const cross = product(upper, lower, rank);
  const columns = Array.from({ length: rank }, (_, j) =>
    solveLinear(
      gram,
      cross.map((row) => row[j] as Complex),
    ),
  );
  return eigenvalues(gram.map((_, i) => columns.map((column) => column[i] as Complex)));
}

function covariance(signal: Float64Array, width: number): Float64Array[] {
  const rows = signal.length - width + 1;
  const matrix = Array.from({ length: width }, () => new Float64Array(width));
  for (let i = 0; i < width; i++) {
    for (let j = i; j < width; j++) {
      let sum = 0;
      for (let n = 0; n < rows; n++) sum += (signal[n + i] as number) * (signal[n + j] as number);
      (matrix[i] as Float64Array)[j] = sum;
      (matrix[j] as Float64Array)[i] = sum;
    }
  }
  return matrix;
}

/** a^T b. */
function product(a: readonly Float64Array[], b: readonly Float64Array[], rank: number): ComplexMatrix {
  return Array.from({ length: rank }, (_, i) =>
    Array.from({ length: rank }, (_, j) =>
      complex(a.reduce((sum, row, n) => sum + (row[i] as number) * ((b[n] as Float64Array)[j] as number), 0)),
    ),
  );
}
