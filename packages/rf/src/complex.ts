/** A complex number as plain data. */
export interface Complex {
  readonly re: number;
  readonly im: number;
}

export const complex = (re: number, im = 0): Complex => ({ re, im });

/** The complex number of this magnitude and angle (rad). */
export const polar = (magnitude: number, angle: number): Complex =>
  complex(magnitude * Math.cos(angle), magnitude * Math.sin(angle));

export const add = (a: Complex, b: Complex): Complex => complex(a.re + b.re, a.im + b.im);

export const subtract = (a: Complex, b: Complex): Complex => complex(a.re - b.re, a.im - b.im);

export const scale = (a: Complex, factor: number): Complex => complex(a.re * factor, a.im * factor);

export const multiply = (a: Complex, b: Complex): Complex =>
  complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);

export const conjugate = (a: Complex): Complex => complex(a.re, -a.im);

export const magnitude = (a: Complex): number => Math.hypot(a.re, a.im);

/** Angle in rad, from -pi to pi. */
export const angle = (a: Complex): number => Math.atan2(a.im, a.re);

/**
 * a / b, scaled so that large and small parts do not overflow (R. L. Smith, "Algorithm 116: complex division",
 * Comm. ACM 5 (1962) 435). Division by zero gives infinities or NaN, as with real numbers.
 */
export function divide(a: Complex, b: Complex): Complex {
  if (Math.abs(b.re) >= Math.abs(b.im)) {
    const ratio = b.im / b.re;
    const bottom = b.re + b.im * ratio;
    return complex((a.re + a.im * ratio) / bottom, (a.im - a.re * ratio) / bottom);
  }
  const ratio = b.re / b.im;
  const bottom = b.re * ratio + b.im;
  return complex((a.re * ratio + a.im) / bottom, (a.im * ratio - a.re) / bottom);
}

export const reciprocal = (a: Complex): Complex => divide(complex(1), a);

/** cosh(x + jy) = cosh x cos y + j sinh x sin y. */
export const cosh = (a: Complex): Complex =>
  complex(Math.cosh(a.re) * Math.cos(a.im), Math.sinh(a.re) * Math.sin(a.im));

/** sinh(x + jy) = sinh x cos y + j cosh x sin y. */
export const sinh = (a: Complex): Complex =>
  complex(Math.sinh(a.re) * Math.cos(a.im), Math.cosh(a.re) * Math.sin(a.im));
