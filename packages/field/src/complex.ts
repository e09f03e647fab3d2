/** A complex number as plain data. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const complex = (re: number, im = 0): Complex => ({ re, im });
export const add = (a: Complex, b: Complex): Complex => complex(a.re + b.re, a.im + b.im);
export const subtract = (a: Complex, b: Complex): Complex => complex(a.re - b.re, a.im - b.im);
export const scale = (a: Complex, factor: number): Complex => complex(a.re * factor, a.im * factor);
export const multiply = (a: Complex, b: Complex): Complex =>
  complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);
export const conjugate = (a: Complex): Complex => complex(a.re, -a.im);
export const magnitude = (a: Complex): number => Math.hypot(a.re, a.im);
export const expComplex = (a: Complex): Complex =>
  complex(Math.exp(a.re) * Math.cos(a.im), Math.exp(a.re) * Math.sin(a.im));
export const divide = (a: Complex, b: Complex): Complex => {
  const squared = b.re * b.re + b.im * b.im;
  return complex((a.re * b.re + a.im * b.im) / squared, (a.im * b.re - a.re * b.im) / squared);
};
export const squareRoot = (a: Complex): Complex => {
  const size = magnitude(a);
  const re = Math.sqrt((size + Math.abs(a.re)) / 2);
  if (re === 0) return complex(0);
  const im = Math.abs(a.im) / (2 * re);
  const sign = a.im < 0 ? -1 : 1;
  return a.re >= 0 ? complex(re, sign * im) : complex(im, sign * re);
};
export const naturalLog = (a: Complex): Complex => complex(Math.log(magnitude(a)), Math.atan2(a.im, a.re));
